using CureWatch.Bays;
using CureWatch.Learning;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>Says what was learnt as one would over a bonnet.</summary>
internal static class LearningWords
{
    public static Sentence Of(LearningReport report)
    {
        if (report.Effect is not { } effect)
        {
            int ignored = report.FarOff + report.Unwatched;
            return $"nothing learnt of your {Stage(report.Stage)} here yet: {Taps(ignored)} could teach nothing";
        }

        Sentence learnt = $"your {Stage(report.Stage)} here {Pace(report.Stage, report.Applied)}, from {Taps(effect.Here)}";
        return report.Disagrees ? (Sentence)$"{learnt}. {Disagreement(report, effect)}" : learnt;
    }

    /// <summary>What to look into where taps say more than is believed of them.</summary>
    private static Sentence Disagreement(LearningReport report, LearntEffect effect)
    {
        Sentence said = $"Your taps say {100 * effect.Factor:0} % of the sheet's time, which disagrees with it";
        return report.Applied == effect.Factor
            ? (Sentence)$"{said}: check the product, its batch and who taps"
            : $"{said}, and is not followed so far: check the product, its batch and who taps";
    }

    private static Sentence Stage(TaughtStage stage) => stage == TaughtStage.Flash ? (Sentence)$"flash" : $"keep-dry";

    private static Sentence Pace(TaughtStage stage, double factor)
    {
        double percent = Math.Round(100 * Math.Abs(1 - factor));
        return (stage, factor < 1) switch
        {
            _ when percent < 1 => $"runs as the sheet says",
            (TaughtStage.Flash, true) => $"runs {percent:0} % faster than the sheet",
            (TaughtStage.Flash, _) => $"runs {percent:0} % slower than the sheet",
            (_, true) => $"ends {percent:0} % sooner than the sheet",
            _ => $"ends {percent:0} % later than the sheet",
        };
    }

    private static Sentence Taps(int count) => count == 1 ? (Sentence)$"1 tap" : $"{count} taps";
}
