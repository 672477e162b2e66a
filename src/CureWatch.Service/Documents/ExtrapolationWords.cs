using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>How far a window is reckoned beyond its sheet, in words.</summary>
internal static class ExtrapolationWords
{
    /// <summary>"9 K colder and 15 % RH moister than any row of the sheet"; null where the sheet's rows cover it.</summary>
    public static Sentence? Of(Extrapolation? beyond)
    {
        if (beyond is null)
        {
            return null;
        }

        Sentence?[] parts =
        [
            beyond.KelvinsBeyond switch
            {
                0 => null,
                > 0 => $"{new Figure.Difference(beyond.KelvinsBeyond, "0")} warmer",
                _ => $"{new Figure.Difference(-beyond.KelvinsBeyond, "0")} colder",
            },
            beyond.PercentBeyond switch
            {
                0 => null,
                > 0 => $"{beyond.PercentBeyond:0} % RH moister",
                _ => $"{-beyond.PercentBeyond:0} % RH drier",
            },
        ];
        return $"{Sentence.Join(" and ", parts.OfType<Sentence>())} than any row of the sheet";
    }
}
