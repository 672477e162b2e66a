using System.Globalization;
using CureWatch.TimeWindows;

namespace CureWatch.Service.Documents;

/// <summary>How far a window is reckoned beyond its sheet, in words.</summary>
internal static class ExtrapolationWords
{
    /// <summary>"9 K colder and 15 % RH moister than any row of the sheet"; null where the sheet's rows cover it.</summary>
    public static string? Of(Extrapolation? beyond)
    {
        if (beyond is null)
        {
            return null;
        }

        string?[] parts =
        [
            Part(beyond.KelvinsBeyond, "K", "warmer", "colder"),
            Part(beyond.PercentBeyond, "% RH", "moister", "drier"),
        ];
        return $"{string.Join(" and ", parts.OfType<string>())} than any row of the sheet";
    }

    private static string? Part(double beyond, string unit, string above, string below) =>
        beyond == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(beyond):0} {unit} {(beyond > 0 ? above : below)}");
}
