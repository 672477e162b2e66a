using CureWatch.Service.Settings;

namespace CureWatch.Service.Demo;

/// <summary>
/// Robin, who was called to the telephone with the windscreen still to level, and whom the warning calls back. Nothing else in the demo
/// answers a warning: all other taps are in the cars' files.
/// </summary>
internal static class Technician
{
    /// <summary>To hear it, hang up and level. Source (choice).</summary>
    private static readonly TimeSpan Reaction = TimeSpan.FromSeconds(150);

    /// <summary>What Robin does about a warning.</summary>
    /// <param name="heard">The warning.</param>
    /// <returns>The tap that follows; null where somebody else sees to it.</returns>
    public static DemoAct.Tapped? AnswerTo(HeardWarning heard)
    {
        if (heard is not { Kind: "level-closing", Job: DemoDay.MainJob, Surface: "windscreen" })
        {
            return null;
        }

        DateTimeOffset at = heard.RaisedAt + Reaction;
        string payload =
            $$"""
            {"job":"{{heard.Job}}","id":"g-called","at":"{{UtcText.Of(at)}}","surface":"windscreen","did":"levelled","layer":1,"section":1,
             "by":"Robin","note":"was on the telephone, the warning called me back"}
            """;
        return new DemoAct.Tapped(at, DemoDay.MainBay, DemoDay.MainJob, "g-called", payload);
    }
}

/// <summary>A warning as it is heard over MQTT.</summary>
/// <param name="Kind">Its kind.</param>
/// <param name="Job">The job it is about; null where it is about none.</param>
/// <param name="Surface">The surface; null where it is about none.</param>
/// <param name="RaisedAt">When it was raised.</param>
internal sealed record HeardWarning(string Kind, string? Job, string? Surface, DateTimeOffset RaisedAt);
