using System.Collections.Immutable;
using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>A bay, and what its probes told.</summary>
/// <param name="Plan">The bay as it is set up.</param>
/// <param name="Logs">Its probes with what they told, in the plan's order.</param>
/// <param name="WetSpells">When water condensed on the coldest panel, by the place whose air it was, in order.</param>
/// <param name="Climates">The climates that a coat is, or was, exposed to here.</param>
/// <param name="Alarms">Its alarms that are not normal.</param>
/// <param name="Jobs">The jobs with a living coat in it about which something can still change.</param>
public sealed record BayState(
    BayPlan Plan,
    ImmutableArray<ProbeLog> Logs,
    ImmutableDictionary<Place, ImmutableArray<Spell>> WetSpells,
    ImmutableDictionary<WatchPoint, WatchedClimate> Climates,
    ImmutableSortedDictionary<Subject, Alarm> Alarms,
    ImmutableSortedSet<string> Jobs)
{
    private ClimatesTogether? _together;

    /// <summary>The climates that a coat is, or was, exposed to here; with others, what is known of them together is found anew.</summary>
    public ImmutableDictionary<WatchPoint, WatchedClimate> Climates
    {
        get;
        init => (field, _together) = (value, null);
    } = Climates;

    /// <summary>The living coats in it about which something can still change, product by product.</summary>
    public ImmutableArray<OpenCoats> Open { get; init; } = [];

    /// <summary>Those of them that water, or air their sheet does not allow, can still spoil.</summary>
    public ImmutableArray<OpenCoats> Undried => Open.RemoveAll(o => o.AreDry);

    /// <summary>What people told of the temperature of single surfaces here.</summary>
    public ImmutableDictionary<SurfaceKey, SurfaceHeat> Heats { get; init; } = ImmutableDictionary<SurfaceKey, SurfaceHeat>.Empty;

    /// <summary>The lamps that burn, or burnt lately, in it.</summary>
    public ImmutableArray<NearbyLamp> Lamps { get; init; } = [];

    /// <summary>When somebody began, or ceased, to measure the air of a place here, in order.</summary>
    public ImmutableArray<AirChange> AirChanges { get; init; } = [];

    /// <summary>Whether the shop's plan has it no more: it keeps what was measured in it, for the coats that were there.</summary>
    public bool IsGone { get; init; }

    /// <summary>What is known of how its air runs through the days.</summary>
    public ClimateForecaster Forecaster { get; init; } = ClimateForecaster.New([.. ClimateForecast.Leads]);

    /// <summary>What is expected of it, as it was last looked ahead; null while no coat in it is open.</summary>
    public BayAhead? Ahead { get; init; }

    /// <summary>The last hour its forecaster was told of, counted from 1970-01-01T00:00Z; null before the first.</summary>
    public long? HeardThrough { get; init; }

    /// <summary>What came late and is not followed yet; null where nothing did.</summary>
    public Backlog? Backlog { get; init; }

    /// <summary>How many readings may still come before the bay lets go of what nobody asks for any more.</summary>
    public int ReadingsToTidy { get; init; } = History.LeastReadings;

    /// <summary>When something about it falls due, if nothing comes before; null where nothing can.</summary>
    public DateTimeOffset? DueAt
    {
        get
        {
            DateTimeOffset? next = IsGone ? null : ProbeSilence.NextIn(this);
            next = Backlog is null || next <= Backlog.FollowedAt ? next : Backlog.FollowedAt;
            if (Alarms.IsEmpty)
            {
                return next;
            }

            foreach ((Subject subject, Alarm alarm) in Alarms)
            {
                DateTimeOffset? due = alarm.DueAt(AlarmRule.Of(subject.Kind));
                next = due is null || next <= due ? next : due;
            }

            return next;
        }
    }

    /// <summary>When it is looked at for what falls due: at <see cref="DueAt"/> or before, since each reading puts off when its probe falls silent.</summary>
    internal DateTimeOffset? FiledAt { get; private init; }

    /// <summary>When water condensed in the air of a place, in order.</summary>
    /// <param name="air">The place that stands for the air.</param>
    /// <returns>The stretches.</returns>
    public ImmutableArray<Spell> WetSpellsIn(Place air) => WetSpells.GetValueOrDefault(air, []);

    /// <summary>Whether water condenses now in the air of a place.</summary>
    /// <param name="air">The place that stands for the air.</param>
    /// <returns>True while it does.</returns>
    public bool IsWet(Place air) => WetSpellsIn(air) is { IsEmpty: false } spells && spells[^1].To is null;

    /// <summary>A bay at the moment its shop begins to watch.</summary>
    /// <param name="plan">The bay as it is set up.</param>
    /// <param name="now">The present.</param>
    /// <returns>The bay.</returns>
    public static BayState Opening(BayPlan plan, DateTimeOffset now) => new(
        plan,
        [.. plan.Probes.Select(m => new ProbeLog(m.Probe, now))],
        ImmutableDictionary<Place, ImmutableArray<Spell>>.Empty,
        ImmutableDictionary<WatchPoint, WatchedClimate>.Empty,
        ImmutableSortedDictionary.Create<Subject, Alarm>(SubjectOrder.Instance),
        ImmutableSortedSet.Create<string>(StringComparer.Ordinal));

    /// <summary>The bay, set up otherwise.</summary>
    /// <param name="plan">The bay as it is set up from now on.</param>
    /// <param name="now">The present.</param>
    /// <returns>The bay; a probe that measures the same as before keeps what it told.</returns>
    public BayState Refit(BayPlan plan, DateTimeOffset now)
    {
        bool isComparedAnew = !MeasuresAs(plan);
        return this with
        {
            Plan = plan,
            IsGone = false,
            AirChanges = [.. AirChanges, .. AirChange.Between(Plan, plan, now)],
            Logs =
            [
                .. from mount in plan.Probes
                   let index = IndexOf(mount.Probe.Id)
                   let isSame = index >= 0 && Logs[index].Probe.Measures == mount.Probe.Measures
                   let log = isSame ? Logs[index].Of(mount.Probe) : new ProbeLog(mount.Probe, now)
                   select isComparedAnew && log.OutvotedAt is not null ? log.Outvote(null) : log,
            ],
        };
    }

    /// <summary>Whether a plan has the same probes at the same places, corrected alike: else whoever changed it has looked at them.</summary>
    /// <param name="plan">The plan.</param>
    /// <returns>False where twins are to be compared anew.</returns>
    internal bool MeasuresAs(BayPlan plan) =>
        plan.Probes.Length == Plan.Probes.Length
        && plan.Probes.Zip(Plan.Probes).All(p => p.First.Probe.ReadsAs(p.Second.Probe) && p.First with { Probe = p.Second.Probe } == p.Second);

    /// <summary>Finds a probe.</summary>
    /// <param name="probe">Its id.</param>
    /// <returns>Where it stands in the plan; below 0 where the bay has none of that name.</returns>
    public int IndexOf(string probe)
    {
        for (int i = 0; i < Plan.Probes.Length; i++)
        {
            if (Plan.Probes[i].Probe.Id == probe)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>What is known of all its climates together.</summary>
    /// <param name="now">The shop's present: whoever folds asks, of a bay that nobody else has yet, so that it is found for no later one.</param>
    /// <returns>What is known, from the first present on that was asked for.</returns>
    internal ClimatesTogether Together(DateTimeOffset now) => _together ??= ClimatesTogether.Of(Climates, now);

    /// <summary>The bay, filed where it is found in time.</summary>
    /// <param name="now">The present: what is filed for later than it, and no later than it falls due, stays there, unless that is nearer than half-way.</param>
    /// <returns>The bay.</returns>
    internal BayState Foreseen(DateTimeOffset now)
    {
        DateTimeOffset? next = DueAt, filed = FiledAt > now && FiledAt <= next && FiledAt - now >= next - FiledAt ? FiledAt : next;
        return filed == FiledAt ? this : this with { FiledAt = filed };
    }

    /// <summary>The bay, filed where it falls due.</summary>
    internal BayState Refiled() => this with { FiledAt = DueAt };
}
