using CureWatch.Psychrometrics;

namespace CureWatch.Bays;

/// <summary>Whether a bay is worth airing: with an extraction of its own, and outdoor air that is drier by enough.</summary>
internal static class Airing
{
    /// <summary>Airing helps only where the outdoor dew point, or to cool the air outdoors, is lower by this [K]. Source (choice): less is lost in the probes' errors.</summary>
    public const double WorthK = 2;

    /// <summary>By how much the dew point would fall if a bay were aired for long [K]; null where it has nothing to air with, or it is not worth it.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="indoorPa">Its moisture [Pa].</param>
    /// <param name="outdoorPa">The moisture outdoors [Pa]; null where nobody measures.</param>
    public static double? LowersK(BayState bay, double indoorPa, double? outdoorPa) =>
        bay.Plan.Equipment.Contains(Equipment.Extraction) && outdoorPa is { } pascals && DewPointK(indoorPa) - DewPointK(pascals) is >= WorthK and var lower
            ? lower
            : null;

    /// <summary>The outdoor air that a bay is worth airing with.</summary>
    /// <param name="shop">The shop: what is outdoors is outdoors for every bay.</param>
    /// <param name="bay">The bay.</param>
    /// <param name="indoorPa">Its moisture [Pa].</param>
    public static (double Kelvins, double VapourPressurePa)? With(Shop shop, BayState bay, double indoorPa) =>
        AheadScene.OutdoorsOf(shop) is { } outdoors && LowersK(bay, indoorPa, outdoors.VapourPressurePa) is not null
            ? (outdoors.Kelvins, outdoors.VapourPressurePa)
            : null;

    private static double DewPointK(double pascals) => CondensationTemperature.OfPressure(pascals).Kelvins;
}
