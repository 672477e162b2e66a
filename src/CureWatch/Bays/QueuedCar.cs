using System.Collections.Immutable;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The cars of a bay.</summary>
/// <param name="Free">When it is free, once all that are planned for it have left.</param>
/// <param name="FreeFromHere">When it is free of the cars that are begun.</param>
/// <param name="Waiting">Those whose work is not begun, in the order they are worked.</param>
internal sealed record BayLine(BayFree Free, BayFree FreeFromHere, ImmutableArray<QueuedCar> Waiting)
{
    /// <summary>A bay that nobody has a car in or for.</summary>
    public static BayLine Empty { get; } = new(BayFree.Now, BayFree.Now, []);
}

/// <summary>A car none of whose coats is begun, as its turn comes.</summary>
/// <param name="Job">Its job.</param>
/// <param name="Car">What is planned.</param>
/// <param name="IsHere">Whether it is here.</param>
/// <param name="Free">When its bay is free of those before it: earliest, likely, latest.</param>
/// <param name="Asked">The work as it would go if it were begun when it was asked for.</param>
/// <param name="Earliest">The earliest start that fits behind the latest end of those before; null where none does.</param>
/// <param name="Slots">The work as it goes behind the earliest, the likely and the latest end of those before; null where no start fits.</param>
internal sealed record QueuedCar(
    JobState Job, CarToPlan Car, bool IsHere, ImmutableArray<BayFree> Free, CarSlot Asked, CarSlot? Earliest, ImmutableArray<CarSlot?> Slots)
{
    /// <summary>Whether it is asked for after all days that are looked at: then nothing of it is planned yet.</summary>
    public bool IsBeyondSight { get; init; }

    /// <summary>Whether nobody measures the air it waits for, or in: then how long its coats take is not known.</summary>
    public bool IsUnmeasured => Car.Surfaces.Any(s => s.Times.IsEmpty);

    /// <summary>The work as it is planned; null where no start fits.</summary>
    public CarSlot? Chosen => Slots[^1];

    /// <summary>From when on its coating may begin, if its bay is free: it is here, and its slowest panel is dry enough.</summary>
    public DateTimeOffset ReadyFrom(DateTimeOffset now) =>
        Car.Surfaces.Max(s => s.DryFrom) is { } dry && dry > Job.HereFrom(now) ? dry : Job.HereFrom(now);

    /// <summary>When its work begins.</summary>
    public TimeBounds BeginsAt => Of(s => s.Plan is { } plan ? TimeBounds.Known(plan.Layers[0].BeginsAt) : null);

    /// <summary>When its last keep-dry ends.</summary>
    public TimeBounds ReadyAt => Of(s => s.ReadyAt);

    /// <summary>When one of its layers may get wet, or is levelled where its sheet does not say.</summary>
    public TimeBounds ReadyOf(string surface, int layer) =>
        Of(s => s.Plan?.Layers.FirstOrDefault(l => l.Surface == surface && l.Layer == layer) is { } work ? work.DryAt ?? TimeBounds.Known(work.DoneAt) : null);

    /// <summary>Whose car it waits for, and when that leaves; null where it waits for none.</summary>
    public QueueAhead? Ahead => Free[^1] is { Job: { } job } last && !(last.At <= Asked.Start)
        ? new QueueAhead(job, Car.Bay, new TimeBounds(Free[0].At, Free[1].At, last.At))
        : null;

    /// <summary>Why no start fits; null where one does.</summary>
    public Words.Sentence? WhyNone => Chosen is not null || IsBeyondSight ? null : Asked.Reasons.FirstOrDefault(r => r.Weight != StartWeight.Notes && r.Kind != StartReasonKind.Promise)?.Text;

    /// <summary>Each bound by its own pace; a car that leaves sooner never has the next one begun later.</summary>
    private TimeBounds Of(Func<CarSlot, TimeBounds?> bounds)
    {
        TimeBounds?[] by = [.. Slots.Select(s => s is null ? null : bounds(s))];
        DateTimeOffset? latest = by[2]?.Latest, likely = by[1]?.Likely, earliest = by[0]?.Earliest;
        likely = likely > latest ? latest : likely;
        return new TimeBounds(earliest > likely ? likely : earliest, likely, latest);
    }
}

/// <summary>The car that another waits for.</summary>
/// <param name="Job">Its job.</param>
/// <param name="Bay">The bay it is in the way in.</param>
/// <param name="LeavesAt">When it leaves, and all before it; null where nobody can tell.</param>
public sealed record QueueAhead(string Job, string Bay, TimeBounds LeavesAt);
