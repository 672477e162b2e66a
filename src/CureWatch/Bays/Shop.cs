using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Everything known of a shop at an instant.</summary>
/// <param name="Plan">The shop as it is set up.</param>
/// <param name="Laws">The laws of every product sheet, by product and revision.</param>
/// <param name="Now">The present.</param>
/// <param name="Bays">What each bay's probes told, by bay.</param>
/// <param name="Jobs">The jobs in the order they were begun.</param>
/// <param name="Climates">The climates that a coat is, or was, exposed to.</param>
/// <param name="Watched">The living coats about which something can still change.</param>
/// <param name="Alarms">The alarms that are not normal.</param>
/// <param name="Warnings">Every warning ever given, in order.</param>
/// <param name="Standing">Where in <paramref name="Warnings"/> the one stands that is not over.</param>
/// <param name="Tally">Readings believed and not.</param>
public sealed record Shop(
    ShopPlan Plan,
    ImmutableDictionary<(string Product, int Revision), CoatLaws> Laws,
    DateTimeOffset Now,
    ImmutableDictionary<string, BayState> Bays,
    ImmutableArray<JobState> Jobs,
    ImmutableDictionary<WatchPoint, WatchedClimate> Climates,
    ImmutableArray<WatchedCoat> Watched,
    ImmutableSortedDictionary<Subject, Alarm> Alarms,
    ImmutableList<Warning> Warnings,
    ImmutableDictionary<Subject, int> Standing,
    ReadingTally Tally)
{
    /// <summary>A shop at the moment it begins to watch.</summary>
    /// <param name="plan">The shop as it is set up.</param>
    /// <param name="sheets">Every product sheet, each product and revision once.</param>
    /// <param name="now">The present.</param>
    /// <returns>The shop.</returns>
    public static Shop Opening(ShopPlan plan, IEnumerable<ProductSheet> sheets, DateTimeOffset now) => new(
        plan,
        sheets.ToImmutableDictionary(s => (s.Product, s.Revision), s => CoatLaws.Of(SheetFit.Of(s))),
        now,
        plan.Bays.ToImmutableDictionary(b => b.Bay, b => BayState.Opening(b, now)),
        [],
        ImmutableDictionary<WatchPoint, WatchedClimate>.Empty,
        [],
        ImmutableSortedDictionary.Create<Subject, Alarm>(SubjectOrder.Instance),
        [],
        ImmutableDictionary<Subject, int>.Empty,
        ReadingTally.None);

    /// <summary>The laws of a surface's product.</summary>
    /// <param name="surface">The surface; its product and revision must be known.</param>
    /// <returns>The laws.</returns>
    public CoatLaws LawsOf(Surface surface) => Laws[(surface.Product, surface.Revision)];

    /// <summary>Finds a job.</summary>
    /// <param name="id">Its id.</param>
    /// <returns>The job, or null where none has that id.</returns>
    public JobState? Find(string id) => Jobs.FirstOrDefault(j => j.Job.Id == id);
}

/// <summary>A bay, and what its probes told.</summary>
/// <param name="Plan">The bay as it is set up.</param>
/// <param name="Logs">Its probes with what they told, in the plan's order.</param>
/// <param name="WetSpells">When water condensed on the coldest panel, by the place whose air it was, in order.</param>
public sealed record BayState(BayPlan Plan, ImmutableArray<ProbeLog> Logs, ImmutableDictionary<Place, ImmutableArray<Spell>> WetSpells)
{
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
    public static BayState Opening(BayPlan plan, DateTimeOffset now) =>
        new(plan, [.. plan.Probes.Select(m => new ProbeLog(m.Probe, now))], ImmutableDictionary<Place, ImmutableArray<Spell>>.Empty);

    /// <summary>The bay, set up otherwise.</summary>
    /// <param name="plan">The bay as it is set up from now on.</param>
    /// <param name="now">The present.</param>
    /// <returns>The bay; a probe that measures the same as before keeps what it told.</returns>
    public BayState Refit(BayPlan plan, DateTimeOffset now) => this with
    {
        Plan = plan,
        Logs =
        [
            .. from mount in plan.Probes
               let index = IndexOf(mount.Probe.Id)
               let isSame = index >= 0 && Logs[index].Probe.Measures == mount.Probe.Measures
               select isSame ? Logs[index].Of(mount.Probe) : new ProbeLog(mount.Probe, now),
        ],
    };

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
}

/// <summary>A job, and what people told of it.</summary>
/// <param name="Job">The job.</param>
/// <param name="Told">Every tap in the order it was told.</param>
/// <param name="Stories">The same, surface by surface.</param>
/// <param name="Overheats">Surfaces that got hotter than they may.</param>
/// <param name="IsReady">Whether the car may leave, as it was last ruled.</param>
/// <param name="RuleAt">When it has to be ruled on again; null where only a tap or water can turn the ruling.</param>
/// <param name="LeftAt">When the car left; null while it is here.</param>
public sealed record JobState(
    Job Job,
    ImmutableArray<Tap> Told,
    ImmutableArray<SurfaceStory> Stories,
    ImmutableArray<(string Surface, Overheat Overheat)> Overheats,
    bool IsReady = false,
    DateTimeOffset? RuleAt = null,
    DateTimeOffset? LeftAt = null);

/// <summary>A living coat that is watched.</summary>
/// <param name="Key">Its name.</param>
/// <param name="Story">The story of its surface.</param>
/// <param name="Coat">The coat.</param>
/// <param name="Laws">The laws of its product.</param>
/// <param name="Point">The point that watches it now; null where nobody does.</param>
/// <param name="ReviewAt">When it has to be looked at again.</param>
/// <param name="IsFollowed">Whether somebody has to do something to it in time, so that every reading matters.</param>
public sealed record WatchedCoat(
    CoatKey Key, SurfaceStory Story, Coat Coat, CoatLaws Laws, WatchPoint? Point, DateTimeOffset ReviewAt, bool IsFollowed);

/// <summary>Readings believed and not.</summary>
/// <param name="Accepted">How many were believed.</param>
/// <param name="Rejected">How many were not, by reason.</param>
public sealed record ReadingTally(int Accepted, ImmutableSortedDictionary<Disbelief, int> Rejected)
{
    /// <summary>The tally with refused messages more.</summary>
    /// <param name="counts">How many, by reason.</param>
    /// <returns>The tally.</returns>
    public ReadingTally With(ImmutableArray<(Disbelief Why, int Count)> counts) => this with
    {
        Rejected = counts.Aggregate(Rejected, (sum, c) => sum.SetItem(c.Why, sum.GetValueOrDefault(c.Why) + c.Count)),
    };

    /// <summary>No reading yet.</summary>
    public static ReadingTally None { get; } = new(0, ImmutableSortedDictionary<Disbelief, int>.Empty);
}
