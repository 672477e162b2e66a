using System.Diagnostics;
using CureWatch.Planning;

namespace CureWatch.Service.Commands;

/// <summary>A pass plan in words for a person in the bay.</summary>
internal static class PassText
{
    public static string Of(PassPlan plan) => plan switch
    {
        PassPlan.Workable { Sections: 1 } pass => $"1 section a pass: coat it, then level it{Times(pass)}",
        PassPlan.Workable pass => $"{pass.Sections} sections a pass: coat {pass.Sections}, then level them in the same order{Times(pass)}",
        PassPlan.Endless pass => $"no need to stop: one coats, the other levels behind.{Environment.NewLine}every section waits {Clock(pass.WorstWait)}",
        PassPlan.Unworkable { Because: PassObstacle.WindowNeverOpen } no =>
            $"0 sections a pass: the window closes before the coat has flashed, {Clock(no.ShortBy)} short. Smaller sections, judge by eye.",
        PassPlan.Unworkable { Because: PassObstacle.ChangeOverTooLong } no =>
            $"0 sections a pass: tools are changed {Clock(no.ShortBy)} too late. Have the cloth at hand before you apply.",
        PassPlan.Unworkable { Because: PassObstacle.LevellingTooLong } no =>
            $"0 sections a pass: levelling one ends {Clock(no.ShortBy)} too late. Make the sections smaller.",
        _ => throw new UnreachableException($"{plan}"),
    };

    private static string Times(PassPlan.Workable pass)
    {
        string idle = pass.Idle > TimeSpan.Zero ? $", {Clock(pass.Idle)} of it waiting for the flash" : "";
        return $".{Environment.NewLine}longest wait of a section {Clock(pass.WorstWait)}; a pass takes {Clock(pass.PerPass)}{idle}";
    }

    private static string Clock(TimeSpan duration)
    {
        string seconds = $@"{duration:ss\.FFFFFFF}".TrimEnd('.');
        return duration < TimeSpan.FromHours(1)
            ? $"{duration.Minutes}:{seconds}"
            : $"{(long)duration.TotalHours}:{duration.Minutes:00}:{seconds}";
    }
}
