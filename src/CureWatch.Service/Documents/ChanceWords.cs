using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>A chance as people say it.</summary>
internal static class ChanceWords
{
    /// <summary>"1 in 40"; from about one in seven on out of ten.</summary>
    public static Sentence Of(double chance) => chance switch
    {
        < 0.001 => $"less than 1 in 1,000",
        < 0.15 => $"1 in {Plain(1 / chance):0}",
        <= 0.95 => $"{10 * chance:0} in 10",
        _ => $"more than 19 in 20",
    };

    /// <summary>No more digits than the chance is worth.</summary>
    private static double Plain(double inverse) => inverse < 20 ? Math.Round(inverse) : inverse < 200 ? 10 * Math.Round(inverse / 10) : 100 * Math.Round(inverse / 100);
}
