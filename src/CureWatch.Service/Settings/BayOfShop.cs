using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;

namespace CureWatch.Service.Settings;

/// <summary>A bay as people write it.</summary>
internal sealed record BayOfShop(BayPlan Plan, ImmutableArray<ProbeWiring> Wiring)
{
    /// <summary>Standard pressure at sea level [hPa], where nobody says how high the shop lies. Source: ISO 2533.</summary>
    private const double UsualPressureHpa = 1013.25;

    /// <summary>From a shop at 5,000 m to the highest pressure ever seen at sea level.</summary>
    private static readonly NumberRange PressureHpa = NumberRange.From(500, 1100, "hPa");

    /// <returns>The bays; one with a fault may be missing.</returns>
    public static ImmutableArray<BayOfShop> ReadAll(JsonCursor bays, string shop, TimeZoneInfo zone)
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        return [.. bays.Items(least: 1).Select(b => Read(b, shop, zone, ids)).OfType<BayOfShop>()];
    }

    private static BayOfShop? Read(JsonCursor place, string shop, TimeZoneInfo zone, HashSet<string> ids)
    {
        _ = place.Keys(["bay"], "pressureHpa", "airspace", "equipment", "probes");
        string? bay = place["bay"].Id();
        double pressureHpa = place["pressureHpa"].Number(PressureHpa) ?? UsualPressureHpa;
        string? airspace = place["airspace"].Id() ?? bay;
        ImmutableArray<Equipment> equipment = place["equipment"].Each<Equipment>();
        ImmutableArray<ProbeOfBay> probes = ProbeOfBay.ReadAll(place["probes"], shop, bay ?? "", zone);
        if (bay is Whereabouts.Store or Whereabouts.Outside)
        {
            place["bay"].Refuse($"another id: a car that left the bays is in '{Whereabouts.Store}' or '{Whereabouts.Outside}'");
        }

        if (bay is not null && !ids.Add(bay))
        {
            place["bay"].Refuse("each bay once");
        }

        return bay is null || airspace is null
            ? null
            : new BayOfShop(
                new BayPlan(bay, pressureHpa, airspace, equipment, [.. probes.Select(p => p.Mount)]), [.. probes.Select(p => p.Wiring)]);
    }
}
