using System.Collections.Immutable;
using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says what times ahead take for granted of the climate where a surface is: the same that <see cref="Present"/> reckons with.</summary>
internal static class ClimateAhead
{
    private const int HoursPerDay = 24;

    /// <summary>Says it.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="present">The shop's present.</param>
    /// <param name="stays">Where the surface was.</param>
    /// <returns>A sentence.</returns>
    public static Sentence Of(Shop shop, Present present, ImmutableArray<Stay> stays) =>
        $"{Air(shop, present, stays)}{UnheardPanel.InWords(shop, present, stays)}{UnmeasuredPanel.InWords(present, stays)}";

    private static Sentence Air(Shop shop, Present present, ImmutableArray<Stay> stays)
    {
        if (!stays.Any(s => s.Point is { } p && present.ExposureAt(p) is not null))
        {
            return $"Nobody has measured the climate: times ahead are those of the sheet's own climate.";
        }

        if (stays[^1].Point is not { } point)
        {
            return $"The climate from now on is held as it was measured last: nobody measures where the car is now.";
        }

        if (point.Air != Place.Outside)
        {
            return $"The climate from now on is held as it was measured last in the {(point.Air == Place.Cabin ? (Sentence)$"cabin" : $"engine bay")}: only a bay's own air is forecast.";
        }

        SeriesForecaster air = shop.Bays[point.Bay].Forecaster.Kelvins;
        return air.Course is null
            ? (Sentence)$"The climate from now on is held as it was measured last in {point.Bay}: from the fourth day measured there on it is forecast."
            : $"The climate from now on is forecast from what was measured in {point.Bay} over the last {(int)((air.Past[^1].Hour - air.Past[0].Hour) / HoursPerDay)} days.";
    }
}
