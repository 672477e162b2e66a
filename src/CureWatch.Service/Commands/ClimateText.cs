using System.Diagnostics;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Commands;

/// <summary>A climate in words for a person in the bay.</summary>
internal static class ClimateText
{
    public static string Of(BayClimate climate, Verdict? verdict, SpreadDoubt? doubt)
    {
        string frost = climate.FrostPoint is { } point ? $", frost point {point.Degrees:0.0} °C" : "";
        string[] lines =
        [
            $"dew point {climate.DewPoint.Degrees:0.0} °C{frost}, wet bulb {climate.WetBulb.Degrees:0.0} °C",
            $"the air holds {climate.AbsoluteHumidityGramsPerCubicMetre:0.0} g of water a cubic metre",
            VerdictOf(climate, verdict),
            .. doubt is null
                ? []
                : new[] { $"by the limits of the probes the spread may be off by {doubt.StandardKelvins:0.0} K (one standard uncertainty): {ChanceWords.Of(doubt.CondensationChance)} that the panel is wet" },
        ];
        return string.Join(Environment.NewLine, lines);
    }

    private static string VerdictOf(BayClimate climate, Verdict? verdict)
    {
        string point = climate.FrostPoint is null ? "dew point" : "frost point";
        double spread = Math.Abs(climate.SpreadKelvins ?? 0);
        return verdict switch
        {
            null => "no verdict without a panel temperature (--panel)",
            Verdict.Wet => $"wet: panel {spread:0.0} K below the {point}",
            Verdict.Marginal => $"marginal: panel {spread:0.0} K above the {point}, {SheetLimits.UsualSpreadMinK} K is the usual least",
            Verdict.Dry => $"dry: panel {spread:0.0} K above the {point}",
            _ => throw new UnreachableException($"{verdict}"),
        };
    }
}
