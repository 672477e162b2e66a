using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Reports;

/// <summary>How a bay stands at an instant.</summary>
/// <param name="Plan">The bay as it is set up.</param>
/// <param name="At">The instant.</param>
/// <param name="Airs">The bay's own air first, then every place in it that has air and a probe of its own.</param>
/// <param name="Probes">Its probes, in the plan's order.</param>
public sealed record BayReport(BayPlan Plan, DateTimeOffset At, ImmutableArray<AirReport> Airs, ImmutableArray<ProbeReport> Probes)
{
    /// <summary>The shop's time zone.</summary>
    public TimeZoneInfo Zone { get; private init; } = TimeZoneInfo.Utc;

    /// <summary>Reports on a bay.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The bay's id; the bay must be there.</param>
    /// <returns>The report at the shop's present.</returns>
    public static BayReport Of(Shop shop, string id)
    {
        BayState bay = shop.Bays[id];
        var present = new Present(shop, shop.Now);
        IEnumerable<Place> elsewhere = bay.Plan.Probes
            .Where(m => m.Probe.Measures == Measures.Air).Select(m => PlaceAir.Of(m.Place)).Where(p => p != Place.Outside).Distinct().Order();
        return new BayReport(
            bay.Plan,
            shop.Now,
            [.. elsewhere.Prepend(Place.Outside).Select(p => AirReport.Of(present, bay, p))],
            [.. bay.Plan.Probes.Select((_, i) => ProbeReport.Of(bay, i, shop.Now))])
        {
            Zone = shop.Plan.Hours.Zone,
        };
    }
}

/// <summary>The air of a bay, or of a place in it, at an instant.</summary>
/// <param name="Place">The place that stands for the air.</param>
/// <param name="Climate">
/// The wettest air against the coldest panel, measured or reckoned under an open coat, or against the coldest air where no panel is measured; null
/// while no air probe is heard, and without a panel while one of the panel probes is missing.
/// </param>
/// <param name="MeasuredAt">When the air was measured; null while no air probe is heard.</param>
/// <param name="IsPanelMeasured">Whether the panel is a measured one.</param>
/// <param name="Doubt">How far the spread may be off, by the limits of those two probes, or by what a panel lags; null where there is none.</param>
public sealed record AirReport(Place Place, BayClimate? Climate, DateTimeOffset? MeasuredAt, bool IsPanelMeasured, SpreadDoubt? Doubt = null)
{
    private const double PascalsPerHectopascal = 100;

    /// <summary>Reports on a bay's own air alone.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="bay">The bay's id; the bay must be there.</param>
    /// <returns>The report at the shop's present.</returns>
    public static AirReport Of(Shop shop, string bay) => Of(new Present(shop, shop.Now), shop.Bays[bay], Place.Outside);

    internal static AirReport Of(Present present, BayState bay, Place place)
    {
        if (BayAir.Of(present, bay, place) is not { } air)
        {
            return new AirReport(place, null, null, IsPanelMeasured: false);
        }

        // A panel under a lamp may be hotter than anything condensation is reckoned for; it is no wetter at 100 °C than above.
        double? panelC = air.ColdestKelvins is { } kelvins
            ? Math.Min(Celsius.FromKelvins(kelvins).Degrees, ClimateRange.HottestPanelC)
            : null;
        var climate = new BayClimate(
            Celsius.FromKelvins(air.Wettest.Kelvins),
            new RelativeHumidity(air.Wettest.HumidityPct),
            panelC is { } degrees ? new Celsius(degrees) : null,
            bay.Plan.PressureHpa * PascalsPerHectopascal);
        SpreadDoubt? doubt = SpreadDoubt.Of(
            climate,
            air.WettestProbe.AccuracyTemperatureK,
            air.WettestProbe.AccuracyHumidityPct,
            air.ColdestProbe?.AccuracyTemperatureK,
            air.ModelLagKelvins ?? SpreadDoubt.LagKelvins);
        return new AirReport(place, climate, air.Wettest.At, air is { IsPanelMeasured: true, ModelLagKelvins: null }, doubt);
    }
}

/// <summary>What a probe says at an instant.</summary>
/// <param name="Mount">The probe and what it sits on.</param>
/// <param name="State">Whether it is heard.</param>
/// <param name="HeardAt">When it was last heard and believed; null where it never was.</param>
/// <param name="Air">What it last said about the air; null where it said nothing.</param>
/// <param name="Panel">What it last said about a panel; null where it said nothing.</param>
/// <param name="Clock">What is known of its clock.</param>
public sealed record ProbeReport(ProbeMount Mount, ProbeState State, DateTimeOffset? HeardAt, Sample? Air, Sample? Panel, DeviceClock Clock)
{
    /// <summary>How far its clock is off by more than is put up with [s, ahead of ours]; null where it is not.</summary>
    public double? ClockOffBySeconds =>
        Clock.OffsetSeconds is { } offset && Math.Abs(offset) > ProbeLog.ClockTolerance.TotalSeconds ? offset : null;

    /// <summary>Why it is heard and not believed, or counts as silent though it sends; null where it is believed, or not heard.</summary>
    public Refusal? Refused { get; private init; }

    /// <summary>The probes that measure the same.</summary>
    public ImmutableArray<Probe> Twins { get; private init; } = [];

    /// <summary>How much it says above them; null where that cannot be said yet.</summary>
    public TwinDifference? Beside { get; private init; }

    /// <summary>Its own ± limit and the largest of its twins', added [K].</summary>
    public double LimitsK => Mount.Probe.AccuracyTemperatureK + Twins.Select(t => t.AccuracyTemperatureK).DefaultIfEmpty().Max();

    /// <summary>The same of humidity [% RH].</summary>
    public double LimitsPct => Mount.Probe.AccuracyHumidityPct + Twins.Select(t => t.AccuracyHumidityPct).DefaultIfEmpty().Max();

    internal static ProbeReport Of(BayState bay, int index, DateTimeOffset now)
    {
        (ProbeMount mount, ProbeLog log) = (bay.Plan.Probes[index], bay.Logs[index]);
        bool isKnown = log.Air.Count > 0 || log.Panel.Count > 0;
        ProbeState state = now >= log.QuietAt ? ProbeState.Silent : isKnown || log.Refused is not null ? ProbeState.Heard : ProbeState.Awaited;
        return new ProbeReport(
            mount,
            state,
            isKnown ? log.HeardAt : null,
            log.Air.Count > 0 ? log.Air.Last : null,
            log.Panel.Count > 0 ? log.Panel.Last : null,
            log.Clock)
        {
            Refused = state == ProbeState.Heard ? log.Refused : Sends(log, now) ? log.Clock.Refused : null,
            Twins = [.. ProbeTwins.Of(bay.Plan, index).Where(i => i != index).Select(i => bay.Plan.Probes[i].Probe)],
            Beside = log.Beside.Now(),
        };
    }

    private static bool Sends(ProbeLog log, DateTimeOffset now) => log.Clock.Refused is { } refused && now < refused.At + log.Probe.SilentAfter;
}

/// <summary>Whether a probe is heard.</summary>
public enum ProbeState
{
    /// <summary>Not heard yet, and not missed either.</summary>
    Awaited,

    /// <summary>Heard in time.</summary>
    Heard,

    /// <summary>Missed three times, or more.</summary>
    Silent,
}
