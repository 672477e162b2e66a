using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>What a bay can do about its climate by the equipment it has, in words.</summary>
internal static class BayMeans
{
    /// <param name="shop">The shop: what is outdoors is outdoors for every bay.</param>
    /// <param name="bay">The bay.</param>
    /// <param name="air">Its air; null where it is not heard.</param>
    public static ClimateMeans Of(Shop shop, BayState bay, AirLook? air)
    {
        Sentence? fixedHeating = bay.Plan.Equipment.Contains(Equipment.FixedHeating) ? (Sentence)$"the fixed heating" : null;
        Sentence? portable = bay.Plan.Equipment.Contains(Equipment.PortableHeater) ? (Sentence)$"the portable heater, attended and before any solvent is open" : null;
        Sentence? dehumidifier = bay.Plan.Equipment.Contains(Equipment.Dehumidifier) ? (Sentence)$"the dehumidifier" : null;
        return new ClimateMeans(
            fixedHeating ?? portable,
            fixedHeating,
            dehumidifier ?? (air is not null && Airing.With(shop, bay, air.VapourPressurePa) is not null ? (Sentence)$"the extraction: it is drier outdoors" : null),
            bay.Plan.Equipment.Contains(Equipment.Humidifier) ? (Sentence)$"the humidifier" : null)
        {
            DryAtNight = dehumidifier,
        };
    }
}
