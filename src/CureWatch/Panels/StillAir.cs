using System.Collections.Immutable;
using CureWatch.Psychrometrics;
using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>What an air or a panel may have been while its probe stood still: what it said first, and what can have become of that since.</summary>
/// <remarks>
/// By the rates of a gap (<see cref="RateLimited"/>), counted from the first of the equal values, and from the other side too once another has come: so
/// the doubt of a value grows as long as it is repeated, and what is measured beside it still counts. A humidity that stands still leaves the
/// vapour pressure open; a temperature that does leaves it as far open as the relative humidity, which is measured, allows. What is only suspected moves
/// by the pace of a bay in which nobody notices anything (<see cref="BayDrift.UnnoticedShare"/>).
/// </remarks>
internal static class StillAir
{
    /// <summary>The climates that may have been over a stretch; none where the probe did not stand still.</summary>
    public static ImmutableArray<Alternative> Over(Source source, DateTimeOffset from, DateTimeOffset to)
    {
        Still? temperature = source.Stills.Over(Quantity.Temperature, from, to), humidity = source.Stills.Over(Quantity.Humidity, from, to);
        return temperature is null && humidity is null
            ? []
            : [.. Corners(source, temperature, humidity, from).Zip(Corners(source, temperature, humidity, to), (a, b) => new Alternative(a, b) { IsPast = true }).Distinct()];
    }

    /// <summary>The temperatures a panel may have had at an instant of a still [K].</summary>
    public static (double Low, double High) PanelAt(Still still, DateTimeOffset at) => RateLimited.Temperature(BracketOf(still), ShareOf(still)).At(at);

    private static Exposure[] Corners(Source source, Still? temperature, Still? humidity, DateTimeOffset at)
    {
        Bracket around = source.Around(at, at)!;
        double likelyKelvins = around.KelvinsAt(at), likelyPa = around.VapourPressurePaAt(at);
        (double coldest, double warmest) = temperature is null ? (likelyKelvins, likelyKelvins) : PanelAt(temperature, at);
        if (humidity is null)
        {
            double share = likelyPa / SaturationPressure.OverWaterPa(likelyKelvins);
            return [At(coldest, share * SaturationPressure.OverWaterPa(coldest)), At(warmest, share * SaturationPressure.OverWaterPa(warmest))];
        }

        (double low, double high) = RateLimited.DewPoint(BracketOf(humidity), ShareOf(humidity)).At(at);
        double driestPa = SaturationPressure.OverWaterPa(low), moistestPa = SaturationPressure.OverWaterPa(high);
        return [At(coldest, driestPa), At(coldest, moistestPa), At(warmest, driestPa), At(warmest, moistestPa)];
    }

    private static double ShareOf(Still still) => still.Why == StillReason.Suspected ? BayDrift.UnnoticedShare : 1;

    private static Bracket BracketOf(Still still) => new(
        still.From.At,
        still.From.Kelvins,
        still.From.VapourPressurePa,
        still.To?.At,
        still.To?.Kelvins ?? still.From.Kelvins,
        still.To?.VapourPressurePa ?? still.From.VapourPressurePa);

    private static Exposure At(double kelvins, double pascals) => new(kelvins, Math.Min(pascals, SaturationPressure.OverWaterPa(kelvins)), kelvins);
}
