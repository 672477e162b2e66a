using System.Globalization;
using CureWatch.Bays;
using CureWatch.Learning;

namespace CureWatch.Service.Documents;

/// <summary>Says what was learnt as one would over a bonnet.</summary>
internal static class LearningWords
{
    public static string Of(LearningReport report)
    {
        if (report.Effect is not { } effect)
        {
            int ignored = report.FarOff + report.Unwatched;
            return $"nothing learnt of your {Stage(report.Stage)} here yet: {Taps(ignored)} could teach nothing";
        }

        string learnt = $"your {Stage(report.Stage)} here {Pace(report.Stage, report.Applied)}, from {Taps(effect.Here)}";
        return report.Disagrees ? $"{learnt}. {Disagreement(report, effect)}" : learnt;
    }

    /// <summary>What to look into where taps say more than is believed of them.</summary>
    private static string Disagreement(LearningReport report, LearntEffect effect)
    {
        string said = string.Create(CultureInfo.InvariantCulture, $"Your taps say {100 * effect.Factor:0} % of the sheet's time, which disagrees with it");
        return report.Applied == effect.Factor
            ? $"{said}: check the product, its batch and who taps"
            : $"{said}, and is not followed so far: check the product, its batch and who taps";
    }

    private static string Stage(TaughtStage stage) => stage == TaughtStage.Flash ? "flash" : "keep-dry";

    private static string Pace(TaughtStage stage, double factor)
    {
        double percent = Math.Round(100 * Math.Abs(1 - factor));
        bool isSooner = factor < 1;
        return percent < 1 ? "runs as the sheet says"
            : stage == TaughtStage.Flash
                ? string.Create(CultureInfo.InvariantCulture, $"runs {percent:0} % {(isSooner ? "faster" : "slower")} than the sheet")
                : string.Create(CultureInfo.InvariantCulture, $"ends {percent:0} % {(isSooner ? "sooner" : "later")} than the sheet");
    }

    private static string Taps(int count) => count == 1 ? "1 tap" : string.Create(CultureInfo.InvariantCulture, $"{count} taps");
}
