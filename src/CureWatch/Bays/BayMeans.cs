using CureWatch.Planning;

namespace CureWatch.Bays;

/// <summary>What a bay can do about its climate by the equipment it has, in words.</summary>
internal static class BayMeans
{
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
                : air is not null && Airing.With(shop, bay, air.VapourPressurePa) is not null ? "the extraction: it is drier outdoors"
                : null,
            bay.Plan.Equipment.Contains(Equipment.Humidifier) ? "the humidifier" : null);
    }
}
