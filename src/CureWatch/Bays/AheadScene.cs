using System.Collections.Immutable;
using CureWatch.Forecasting;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Gathers what a bay's night is looked ahead from, as it is at the shop's present.</summary>
internal static class AheadScene
{
    /// <summary>Longer ago than this [h] nobody asks for: a shop that opens once a week, and a clock set forward.</summary>
    private const int LongestClosedHours = (7 * 24) + 1;

    /// <summary>Gathers it.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="present">The same at its present.</param>
    /// <param name="bay">The bay.</param>
    /// <returns>The bay's air now; null while no air probe of it is heard.</returns>
    public static AirNow? Of(Shop shop, Present present, BayState bay)
    {
        double kelvins = 0, pascals = 0, wettestPa = 0;
        double? coldestPanel = null;
        int probes = 0;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            if (!HeardIn.Tells(bay, i, Place.Outside, shop.Now))
            {
                continue;
            }

            if (HeardIn.Air(bay, i, shop.Now) is { } air)
            {
                (kelvins, pascals, wettestPa) = (kelvins + air.Kelvins, pascals + air.VapourPressurePa, Math.Max(wettestPa, air.VapourPressurePa));
                probes++;
            }

            if (HeardIn.Panel(bay, i, shop.Now) is { } panel && !HeardIn.IsUnderLamp(bay, i, shop.Now))
            {
                coldestPanel = panel.Kelvins >= coldestPanel ? coldestPanel : panel.Kelvins;
            }
        }

        if (probes == 0)
        {
            return null;
        }

        (DateTimeOffset? leaves, DateTimeOffset? opens) = NightOf(shop.Plan.Hours, shop.Now);
        return new AirNow(shop.Now, kelvins / probes, pascals / probes)
        {
            WettestShare = wettestPa * probes / pascals,
            ColdestPanelKelvins = coldestPanel,
            Modelled = ModelledIn(present, bay),
            Outdoors = OutdoorsOf(shop) is { } outdoors ? (outdoors.Kelvins, outdoors.VapourPressurePa) : null,
            IsHeatedAtNight = bay.Plan.Equipment.Contains(Equipment.FixedHeating),
            LeavesAt = leaves,
            OpensAt = opens,
            LeftAt = leaves <= shop.Now ? LastLockUp(shop.Plan.Hours, shop.Now) : null,
        };
    }

    /// <summary>The newest that is heard from outdoors, by whichever bay's probe: what is outdoors is outdoors for every bay.</summary>
    /// <param name="shop">The shop.</param>
    /// <returns>The sample; null where nobody measures.</returns>
    public static Sample? OutdoorsOf(Shop shop)
    {
        Sample? newest = null;
        foreach (ProbeLog log in shop.WithOutdoors.SelectMany(b => shop.Bays[b].Logs))
        {
            if (log.Probe.Measures == Measures.Outdoor && HeardIn.IsBelieved(log, shop.Now) && HeardIn.Newest(log.Air, log.Probe, shop.Now) is { } air)
            {
                newest = air.At > newest?.At || newest is null ? air : newest;
            }
        }

        return newest;
    }

    /// <summary>The night that goes on, or comes next: when people leave, and when they come again.</summary>
    /// <param name="hours">When the shop is open.</param>
    /// <param name="now">The present.</param>
    /// <returns>Both; null where the shop never opens, or never closes.</returns>
    public static (DateTimeOffset? Leaves, DateTimeOffset? Opens) NightOf(OpeningHours hours, DateTimeOffset now) => hours.DayAt(now) switch
    {
        { } day when day.Opens > now => (now, day.Opens),
        { LocksUp: { } locksUp } => (locksUp, hours.DayAt(locksUp)?.Opens),
        _ => (null, null),
    };

    /// <summary>The last time people left for a night.</summary>
    /// <param name="hours">When the shop is open.</param>
    /// <param name="now">The present.</param>
    /// <returns>The instant; null where it is longer ago than a week, or never was.</returns>
    public static DateTimeOffset? LastLockUp(OpeningHours hours, DateTimeOffset now)
    {
        for (int ago = 1; ago <= LongestClosedHours; ago++)
        {
            if (hours.DayAt(now - TimeSpan.FromHours(ago))?.LocksUp is { } locksUp && locksUp <= now)
            {
                return locksUp;
            }
        }

        return null;
    }

    private static ImmutableArray<(double Kelvins, TimeSpan TimeConstant)> ModelledIn(Present present, BayState bay) =>
    [
        .. from point in bay.Undried.Select(o => o.Point).Distinct()
           where point.Air == Place.Outside && !present.TellsPanelAt(point)
           let exposure = present.ExposureAt(point)
           where exposure is not null
           select (exposure.Value.PanelKelvins, PanelHeat.Of(point.Material, point.Over).TimeConstant),
    ];
}
