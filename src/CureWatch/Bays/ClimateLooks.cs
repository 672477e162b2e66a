using System.Collections.Immutable;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Holds a bay's climate against what its open coats can take, with every believed reading, once a second at most.</summary>
/// <remarks>
/// What is dry for good can only be spoilt by heat. Only that it is wet on what is measured is said by any reading: what is modelled can wait a second. The
/// wettest air, the driest and the coldest panel count, and of several sheets the strictest limit: one warning for each air of a bay.
/// </remarks>
public static class ClimateLooks
{
    /// <summary>Water activity, or share of the reference rate, below which the cure has all but stopped [1]. Source (choice).</summary>
    internal const double StalledBelow = 0.20;

    private const double NothingOpen = double.NegativeInfinity;

    /// <summary>Decides what a reading means for the coats in its bay.</summary>
    /// <param name="shop">The shop, the reading taken in.</param>
    /// <param name="raw">The reading, believed.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, RawReading raw)
    {
        BayState bay = shop.Bays[raw.Bay];
        int index = bay.IndexOf(raw.Probe);
        ProbeMount mount = bay.Plan.Probes[index];
        Place place = PlaceAir.Of(mount.Place);
        if (mount.Probe.Measures == Measures.Outdoor)
        {
            return [];
        }

        if (!bay.Logs[index].IsLook)
        {
            return !bay.IsWet(place) && BayAir.Measured(bay, place, shop.Now)?.WetByKelvins >= 0 ? [Began(shop, place, raw)] : [];
        }

        // Most bays have nothing to look at at most times: these are spared the present, and model no panel.
        Present? present = bay.Open.IsEmpty && bay.Alarms.IsEmpty ? null : new Present(shop, shop.Now);
        if ((present is null ? BayAir.Measured(bay, place, shop.Now) : BayAir.Of(present, bay, place)) is not { } air)
        {
            return [];
        }

        IEnumerable<ShopEvent> events = WetOrDry(shop, bay, place, air, raw);
        return present is null ? events : events.Concat(Limits(shop, present, bay, place, air, raw));
    }

    private static IEnumerable<ShopEvent> Limits(Shop shop, Present present, BayState bay, Place place, BayAir air, RawReading raw)
    {
        ImmutableArray<OpenCoats> coats = bay.Open.RemoveAll(o => o.Point.Air != place);
        return coats.IsEmpty && !bay.Alarms.Keys.Any(s => s.Air == place) ? [] : new LimitsLook(shop, present, raw, place, air, coats).Decide();
    }

    /// <summary>What a cure has left of its reference in a climate [1]: of its rate, or of the water it needs, whichever is less.</summary>
    internal static double LeftOf(RateLaw law, double panelKelvins, double vapourPressurePa) => Math.Min(
        vapourPressurePa / SaturationPressure.OverWaterPa(panelKelvins), law.Likely(law.Terms(panelKelvins, vapourPressurePa)));

    private static IEnumerable<ShopEvent> WetOrDry(Shop shop, BayState bay, Place place, BayAir air, RawReading raw) =>
        air.WetByKelvins >= 0 && !bay.IsWet(place) ? [Began(shop, place, raw)]
        : air.WetByKelvins < 0 && bay.IsWet(place) ? [new ShopEvent.CondensationEnded(raw.Bay, place, shop.Now)]
        : [];

    private static ShopEvent.CondensationBegan Began(Shop shop, Place place, RawReading raw) =>
        new(raw.Bay, place, raw.MeasuredAt < shop.Now ? raw.MeasuredAt : shop.Now);

    private sealed class LimitsLook(Shop shop, Present present, RawReading raw, Place place, BayAir air, ImmutableArray<OpenCoats> coats)
    {
        private readonly bool _tellsAir = raw.AirC is not null;

        public IEnumerable<ShopEvent> Decide()
        {
            ImmutableArray<OpenCoats> undried = coats.RemoveAll(c => c.AreDry);
            IEnumerable<ShopEvent> events = air.WetByKelvins is { } wetBy
                ? Look(undried, WarningKind.Condensing, _ => Math.BitIncrement(wetBy)) // at the condensation temperature it is wet already
                : [];
            if (_tellsAir)
            {
                events = events
                    .Concat(Look(undried, WarningKind.HumidityHigh, c => air.HumidityMaxPct - c.Laws.Sheet.Limits.HumidityMaxPct))
                    .Concat(Look(undried, WarningKind.HumidityLow, c => c.Laws.Sheet.Limits.HumidityMinPct - air.HumidityMinPct))
                    .Concat(Look(undried, WarningKind.CureStalled, StalledBy));
            }

            if (raw.PanelC is not null || (_tellsAir && coats.Any(c => !present.TellsPanelAt(c.Point))))
            {
                events = events
                    .Concat(Look(undried, WarningKind.PanelCold, c => c.Laws.Sheet.Limits.PanelMinC - PanelC(c)))
                    .Concat(Look(coats, WarningKind.PanelHot, c => HottestC(c) - HottestAllowedC(c)))
                    .Concat(Overheated());
            }

            return events;
        }

        private IEnumerable<ShopEvent> Look(ImmutableArray<OpenCoats> spoilt, WarningKind kind, Func<OpenCoats, double?> excessOf)
        {
            double worst = NothingOpen;
            string? surface = null;
            foreach (OpenCoats coat in spoilt)
            {
                if (excessOf(coat) is { } excess && excess > worst)
                {
                    worst = excess;
                    surface = coat.Surfaces[0].Surface.Id;
                }
            }

            return Watchman.Look(shop, new Subject(kind) { Bay = raw.Bay, Air = place }, worst, new Worst(surface));
        }

        /// <summary>A lamp is to make a panel hot: there the hottest of the sheet's bands is the limit.</summary>
        private double? HottestAllowedC(OpenCoats coat) => coat.Laws.Sheet is var sheet && IsUnderLamp(coat) && !sheet.Lamp.IsEmpty
            ? sheet.Lamp.Max(b => b.PanelMaxC)
            : sheet.Limits.PanelMaxC;

        private bool IsUnderLamp(OpenCoats coat) => UnderLamp.IsFelt(shop, shop.Bays[raw.Bay], coat.Point.Own);

        private double? StalledBy(OpenCoats coat)
        {
            if (IsUnderLamp(coat) || present.ExposureAt(coat.Point) is not { } exposure)
            {
                return null;
            }

            return StalledBelow - LeftOf(coat.Laws.Cure.Law, exposure.PanelKelvins, exposure.VapourPressurePa);
        }

        private IEnumerable<ShopEvent> Overheated() =>
            from coat in coats
            let hottestC = MeasuredC(coat)
            where hottestC is not null
            from held in coat.Surfaces
            let limitC = shop.HeatLimitOfC(held.Surface)
            where hottestC > limitC
            select new ShopEvent.SurfaceOverheated(held.Job, held.Surface.Id, new Overheat(raw.MeasuredAt, hottestC.Value, limitC));

        private double? HottestC(OpenCoats coat) => MeasuredC(coat) ?? PanelC(coat);

        /// <summary>Heat is measured, never modelled: by whatever probe tells of the surface, lent to it while a lamp burns or not.</summary>
        private double? MeasuredC(OpenCoats coat) =>
            present.HottestPanelKelvinsAt(coat.Point) is { } kelvins ? Celsius.FromKelvins(kelvins).Degrees : null;

        private double? PanelC(OpenCoats coat) =>
            present.ExposureAt(coat.Point) is { } exposure ? Celsius.FromKelvins(exposure.PanelKelvins).Degrees : null;
    }
}
