using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>The probes of a bay that tell the climate of a kind of surface.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Place">The place whose air counts.</param>
/// <param name="Material">The material whose own panel probes count before all others.</param>
/// <param name="Over">What lies under a film, whose probes tell of the film too; null where it is no film or nobody said.</param>
/// <param name="Own">
/// The surface, where its temperature has a history of its own: a probe is named for it, it was read by hand, or under a lamp; else null.
/// </param>
/// <remarks>
/// The outside of the car and parts off it are in the bay's air; the cabin and the engine bay are not, and only a probe put there
/// measures them. The panel is that of the probes fixed to the surface itself, else of probes of its material, else of those on what lies under a
/// film, else of probes of which nobody said what they sit on; a panel without any is modelled, and follows the colder of the air and the panels of
/// other materials. A probe that merely bears the name of a surface is fixed to it where that has a history of its own.
/// </remarks>
public sealed record WatchPoint(string Bay, Place Place, Material Material, Material? Over = null, SurfaceKey? Own = null)
{
    private const int MostElsewhere = 4;

    /// <summary>The place that stands for the air here.</summary>
    public Place Air => PlaceAir.Of(Place);

    /// <summary>The point that its surface shares with others of its kind; no property, of which the words for a point would have to tell for ever.</summary>
    /// <returns>The point.</returns>
    public WatchPoint Shared() => Own is null ? this : this with { Own = null };

    /// <summary>The point a surface has in a bay.</summary>
    /// <param name="plan">The bay.</param>
    /// <param name="job">Its job.</param>
    /// <param name="story">The story of the surface.</param>
    /// <returns>The point.</returns>
    public static WatchPoint Of(BayPlan plan, string job, SurfaceStory story)
    {
        Surface surface = story.Surface;
        var shared = new WatchPoint(plan.Bay, surface.Place, surface.Material, surface.Over);
        bool isAlone = story.HasOwnHeat || plan.Probes.Any(m => m.Surface == surface.Id && shared.IsHere(m));
        return isAlone ? shared with { Own = new SurfaceKey(job, surface.Id) } : shared;
    }

    /// <summary>Whether a probe is fixed to the very surface that this point watches.</summary>
    /// <param name="mount">The probe and what it sits on.</param>
    /// <returns>False where the point watches all of a kind.</returns>
    public bool IsOnIt(ProbeMount mount) => Own is { } own && mount.IsOn(own.Surface);

    /// <summary>Whether a bay has a probe for the air of this point.</summary>
    /// <param name="plan">The bay.</param>
    /// <returns>False where nobody measures.</returns>
    public bool IsMeasuredIn(BayPlan plan) => plan.Probes.Any(IsAir);

    /// <summary>The probes with something to tell, as sources of this point's climate.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>The watch.</returns>
    public Watch WatchIn(BayState bay) => WatchIn(bay, AirIn(bay), HallIn(bay));

    /// <summary>The same with air and surroundings that other points share.</summary>
    /// <param name="bay">The bay as it is now.</param>
    /// <param name="air">Its <see cref="AirIn"/>.</param>
    /// <param name="hall">Its <see cref="HallIn(Shop, BayState)"/>.</param>
    /// <returns>The watch.</returns>
    internal Watch WatchIn(BayState bay, AirMixes air, Surroundings? hall)
    {
        Kinship closest = ClosestIn(bay);
        ImmutableArray<Source> panels = PanelsIn(bay, closest);
        return new Watch(air, closest < Kinship.Neighbour ? panels : [])
        {
            Neighbours = closest == Kinship.Neighbour ? panels : [],
            Hall = hall,
            TimeConstant = PanelHeat.Of(Material, Over).TimeConstant,
            Spots = Own is { } own && bay.Heats.TryGetValue(own, out SurfaceHeat? heat) ? heat.Spots : [],
        };
    }

    /// <summary>The air here, as every point in it sees it.</summary>
    /// <param name="bay">The bay as it is now.</param>
    /// <returns>Its sources.</returns>
    internal AirMixes AirIn(BayState bay) => new(SourcesIn(bay, IsAir));

    /// <summary>What a surface here faces in the hall, as every point in this air sees it.</summary>
    /// <param name="shop">The shop: where this bay does not measure outdoors, another may.</param>
    /// <param name="bay">The bay as it is now.</param>
    /// <returns>The surroundings; null inside a car.</returns>
    internal Surroundings? HallIn(Shop shop, BayState bay)
    {
        Surroundings? own = HallIn(bay);
        return own is { Outdoors.IsEmpty: true } && !shop.WithOutdoors.IsEmpty ? new Surroundings(OutdoorsElsewhere(shop)) : own;
    }

    /// <summary>Of many probes the first few do: a shop has one sky.</summary>
    private static ImmutableArray<Source> OutdoorsElsewhere(Shop shop) =>
    [
        .. shop.WithOutdoors.Select(b => shop.Bays[b]).SelectMany(b => b.Logs)
            .Where(l => l is { Probe.Measures: Measures.Outdoor, OutvotedAt: null, Air.Count: > 0 }).Take(MostElsewhere).Select(l => SourceOf(l.Air, l)),
    ];

    /// <summary>The probes that tell of this point: all of its air, and those fixed closest to its panel.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>Their places in the plan.</returns>
    internal IEnumerable<int> ProbesIn(BayState bay)
    {
        Kinship? closest = bay.Plan.Probes.Where(m => m.Probe.Measures == Measures.Panel && IsHere(m)).Select(m => (Kinship?)KinshipOf(m)).Min();
        return Enumerable.Range(0, bay.Logs.Length).Where(i => bay.Plan.Probes[i] is var mount && IsHere(mount)
            && (mount.Probe.Measures == Measures.Air || KinshipOf(mount) == closest));
    }

    /// <summary>The panel probes that speak for it at an instant: of those that are believed the closest, as long as they tell of no other surface under a lamp.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="at">The instant.</param>
    /// <returns>Their places in the plan, all equally close.</returns>
    internal ImmutableArray<int> ClosestPanelsIn(BayState bay, DateTimeOffset at)
    {
        Kinship closest = ClosestIn(bay);
        return
        [
            .. Enumerable.Range(0, bay.Logs.Length).Where(
                i => IsHeard(bay, i) && KinshipOf(bay.Plan.Probes[i]) == closest && !LampHeat.LentTo(bay, i, Own).Any(l => l.Covers(at))),
        ];
    }

    /// <summary>Whether what a probe says changes the climate here.</summary>
    /// <param name="bay">The bay, the probe heard.</param>
    /// <param name="index">Its place in the plan.</param>
    /// <returns>False of a panel probe while another is closer, and of the air of another place.</returns>
    internal bool IsToldBy(BayState bay, int index) => bay.Plan.Probes[index] is var mount && mount.Probe.Measures switch
    {
        Measures.Air => IsHere(mount),
        Measures.Panel => IsHere(mount) && KinshipOf(mount) <= ClosestIn(bay),
        _ => Air == Place.Outside,
    };

    /// <summary>How far the probes of this point may be off.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="since">Since when they are asked: one that was heard later counts for none of it, but where it was the first.</param>
    /// <returns>The doubt; the mean of several air probes is surer than one.</returns>
    public ClimateDoubt DoubtIn(BayState bay, DateTimeOffset since)
    {
        (Probe Probe, DateTimeOffset First)[] air =
        [
            .. bay.Plan.Probes.Select((m, i) => (Mount: m, Log: bay.Logs[i])).Where(p => IsAir(p.Mount) && p.Log is { OutvotedAt: null, Air.Count: > 0 })
                .Select(p => (p.Mount.Probe, p.Log.Air[0].At)),
        ];
        DateTimeOffset first = air.Length > 0 && air.Min(p => p.First) is var at && at > since ? at : since;
        Probe[] heard = [.. air.Where(p => p.First <= first).Select(p => p.Probe)];
        Kinship closest = ClosestIn(bay);
        bool isMeasured = closest < Kinship.Neighbour;
        double count = Math.Max(1, heard.Length);
        return new ClimateDoubt(
            heard.Sum(p => ClimateDoubt.VarianceOfLimit(p.AccuracyTemperatureK)) / (count * count),
            heard.Sum(p => ClimateDoubt.VarianceOfLimit(p.AccuracyHumidityPct)) / (count * count),
            isMeasured
                ? bay.Plan.Probes.Where((m, i) => IsHeard(bay, i) && KinshipOf(m) == closest).Max(m => ClimateDoubt.VarianceOfLimit(m.Probe.AccuracyTemperatureK))
                : ClimateDoubt.LagK * ClimateDoubt.LagK,
            isMeasured);
    }

    private Surroundings? HallIn(BayState bay) =>
        Air == Place.Outside ? new Surroundings(SourcesIn(bay, m => m.Probe.Measures == Measures.Outdoor)) : null;

    private static ImmutableArray<Source> SourcesIn(BayState bay, Func<ProbeMount, bool> which)
    {
        ImmutableArray<Source> sources = [];
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            if (bay.Logs[i] is { OutvotedAt: null, Air.Count: > 0 } log && which(bay.Plan.Probes[i]))
            {
                sources = sources.Add(SourceOf(log.Air, log));
            }
        }

        return sources;
    }

    private ImmutableArray<Source> PanelsIn(BayState bay, Kinship kinship)
    {
        ImmutableArray<Source> panels = [];
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            if (IsHeard(bay, i) && KinshipOf(bay.Plan.Probes[i]) == kinship)
            {
                panels = panels.Add(SourceOf(bay.Logs[i].Panel, bay.Logs[i]) with { Lent = LampHeat.LentTo(bay, i, Own) });
            }
        }

        return panels;
    }

    private static Source SourceOf(Trail<Sample> samples, ProbeLog log) => new(samples, log.Probe.Every)
    {
        LimitK = log.Probe.AccuracyTemperatureK,
        LimitPct = log.Probe.AccuracyHumidityPct,
        Probe = log.Probe.Id,
        Stills = log.Standing.Stills,
    };

    private bool IsAir(ProbeMount mount) => mount.Probe.Measures == Measures.Air && IsHere(mount);

    private bool IsHere(ProbeMount mount) =>
        mount.Probe.Measures != Measures.Outdoor && PlaceAir.Of(mount.Place) == Air;

    /// <summary>Whether a panel probe here has told anything that counts.</summary>
    private bool IsHeard(BayState bay, int index) => bay.Logs[index] is { OutvotedAt: null, Panel.Count: > 0 } && IsHere(bay.Plan.Probes[index]);

    /// <summary>How close the closest of the panel probes is that were heard; a neighbour's where there is none.</summary>
    private Kinship ClosestIn(BayState bay)
    {
        var closest = Kinship.Neighbour;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            if (IsHeard(bay, i) && KinshipOf(bay.Plan.Probes[i]) is var kinship && kinship < closest)
            {
                closest = kinship;
            }
        }

        return closest;
    }

    private Kinship KinshipOf(ProbeMount mount) =>
        IsOnIt(mount) ? Kinship.Itself
        : mount.Material is not { } material ? Kinship.Unsaid
        : material == Material ? Kinship.Same
        : material == Over ? Kinship.Under
        : Kinship.Neighbour;

    /// <summary>What a probe sits on, seen from here, closest first.</summary>
    private enum Kinship
    {
        Itself,
        Same,
        Under,
        Unsaid,
        Neighbour,
    }
}
