using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Psychrometrics;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>What a bay can do about its climate by the equipment it has, in words.</summary>
internal static class BayMeans
{
    /// <summary>Airing helps only where the outdoor dew point is lower by this [K]. Source (choice): less is lost in the probes' errors.</summary>
    private const double WorthAiringK = 2;

    /// <param name="shop">The shop: what is outdoors is outdoors for every bay.</param>
    /// <param name="bay">The bay.</param>
    /// <param name="air">Its air; null where it is not heard.</param>
    public static ClimateMeans Of(Shop shop, BayState bay, AirLook? air)
    {
        string? fixedHeating = bay.Plan.Equipment.Contains(Equipment.FixedHeating) ? "the fixed heating" : null;
        string? portable = bay.Plan.Equipment.Contains(Equipment.PortableHeater) ? "the portable heater, attended and before any solvent is open" : null;
        return new ClimateMeans(
            fixedHeating ?? portable,
            fixedHeating,
            bay.Plan.Equipment.Contains(Equipment.Dehumidifier) ? "the dehumidifier"
                : bay.Plan.Equipment.Contains(Equipment.Extraction) && IsDrierOutdoors(shop, air) ? "the extraction: it is drier outdoors"
                : null,
            bay.Plan.Equipment.Contains(Equipment.Humidifier) ? "the humidifier" : null);
    }

    private static bool IsDrierOutdoors(Shop shop, AirLook? air) =>
        air is not null && shop.Bays.Values.Where(b => !b.IsGone).SelectMany(b => b.Logs)
            .Where(l => l.Probe.Measures == Measures.Outdoor && l.Air.Count > 0 && !Source.IsGapForCure(shop.Now - l.Air.Last.At, l.Probe.Every))
            .Any(l => CondensationTemperature.OfPressure(l.Air.Last.VapourPressurePa).Degrees <= air.CondensationC - WorthAiringK);
}
