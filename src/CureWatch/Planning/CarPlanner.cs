using System.Collections.Immutable;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>Plans a car none of whose coats is begun: whether it fits when it was asked for, and the earliest start that fits.</summary>
/// <remarks>
/// A car is coated in one day where a day holds it, from opening to lock-up with every window between its layers; else each layer of a surface in one
/// day. Until it is collected it stays in its bay. Times are of the climate from now on, held or forecast as the windows are, and slow bounds count.
/// </remarks>
/// <param name="car">The car.</param>
/// <param name="free">When its bay is free.</param>
/// <param name="works">The work planned, or going on, in every air.</param>
/// <param name="pace">How fast a section is worked.</param>
/// <param name="hours">The shop's hours and its present.</param>
/// <param name="collectAfter">When a car can be collected, finished and in opening hours, if its last keep-dry ends at an instant.</param>
public sealed class CarPlanner(
    CarToPlan car, BayFree free, IReadOnlyList<AirWork> works, SectionPace pace, ShopHours hours, Func<DateTimeOffset, DateTimeOffset?> collectAfter)
{
    /// <summary>Starts are looked for by the minute. Source (choice): nobody begins a car to the second.</summary>
    public static readonly TimeSpan Step = TimeSpan.FromMinutes(1);

    private readonly CarReasons _reasons = new(car, free, hours);

    private readonly AirWork[] _works = [.. works.Where(w => w.Airspace == car.Airspace && w.To > hours.Now)];

    /// <summary>Dry panels first; in this order whenever it is begun, so that a later start never ends sooner.</summary>
    private readonly SurfaceToPlan[] _surfaces = [.. car.Surfaces.OrderBy(s => s.DryFrom ?? DateTimeOffset.MaxValue)];

    /// <summary>When a layer may get wet, levelled when it is planned to be; by the times of a coat begun now where null, as while a start is looked for.</summary>
    public Func<LayerWork, TimeBounds?>? DryAt { get; init; }

    /// <summary>When it is to begin: when somebody said, else as soon as it is here.</summary>
    public DateTimeOffset Asked => Minute(new[] { car.AskedAt ?? car.ComesAt ?? hours.Now, hours.Now }.Max());

    /// <summary>Whether its layers have to go on in different days, since no day within sight holds all of them.</summary>
    public bool IsSplit => _isSplit.Value;

    private readonly Lazy<bool> _isSplit = new(() => IsTimed(car) && !AnyDayHolds(car, pace, hours));

    /// <summary>The car as it would go if it were begun at an instant.</summary>
    /// <param name="start">The instant, not before the present.</param>
    /// <returns>The work, and every reason against it.</returns>
    public CarSlot At(DateTimeOffset start) => At(start, DryAt, coats => WorkConflictsOf(start, coats));

    private CarSlot At(DateTimeOffset start, Func<LayerWork, TimeBounds?>? dryAt, Func<ImmutableArray<CoatAtRisk>, IEnumerable<StartReason>> harmed)
    {
        List<StartReason> reasons = [.. _reasons.Before(start)];
        if (!IsTimed(car))
        {
            return new CarSlot(start, null, null, [], [.. reasons.OrderBy(r => r.Weight).ThenBy(r => r.Kind)]);
        }

        WorkPlan plan = PlanAt(start);
        plan = dryAt is null ? plan : new WorkPlan([.. plan.Layers.Select(l => l with { DryAt = dryAt(l) })]);
        ImmutableArray<CoatAtRisk> coats = [.. plan.Layers.Select(l => AtRisk(plan, l))];
        TimeBounds? ready = _surfaces.Select(s => plan.ReadyAt(s.Surface)).Aggregate((TimeBounds?)null, (last, at) => last is null ? at : at is null ? last : last.OrLater(at));
        reasons.AddRange(_reasons.Within(start, plan, IsSplit));
        reasons.AddRange(harmed(coats));
        reasons.AddRange(_reasons.After(ready, ready?.Latest is { } latest ? collectAfter(latest) : null));
        return new CarSlot(start, plan, ready, coats, [.. reasons.OrderBy(r => r.Weight).ThenBy(r => r.Kind)]);
    }

    /// <summary>The earliest start that fits, whatever was promised.</summary>
    /// <returns>The start, on a full minute; null where none within sight does.</returns>
    /// <remarks>
    /// A start is passed over only where a reason says that none before an instant can do: a bay that is taken, a car that is not here, a shop that
    /// is closed, a day that is too short by now.
    /// </remarks>
    public CarSlot? Earliest()
    {
        ImmutableArray<StartReason> heldOffBy = [];
        for (DateTimeOffset start = Minute(hours.Now); start <= hours.Until;)
        {
            CarSlot slot = At(start, null, BrieflyConflictsOf);
            if (slot.IsPossible && At(start) is { IsPossible: true } sure)
            {
                return sure with { HeldOffBy = heldOffBy };
            }

            if (heldOffBy.IsEmpty && slot.IsPossibleBesideOthers)
            {
                heldOffBy = [.. At(start).Reasons.Where(r => r.Kind == StartReasonKind.SharedAir)];
            }

            if (slot.Reasons.Any(r => IsForGood(r, start)))
            {
                return null;
            }

            DateTimeOffset next = slot.Reasons.Where(r => r.Weight == StartWeight.Waits).Max(r => r.Until?.Latest) ?? start;
            start = Minute(next > start + Step ? next : start + Step);
        }

        return null;
    }

    /// <summary>Whether no other start helps against a reason; too late a layer stays too late once every panel is dry, as everything then only moves.</summary>
    private bool IsForGood(StartReason reason, DateTimeOffset start) =>
        reason is { Weight: StartWeight.Stops, Kind: not (StartReasonKind.RecoatMissed or StartReasonKind.Promise or StartReasonKind.ClosingTime) }
        || (reason is { Kind: StartReasonKind.RecoatMissed, Weight: StartWeight.Stops } && !IsSplit && _surfaces.All(s => s.DryFrom <= start));

    private IEnumerable<StartReason> WorkConflictsOf(DateTimeOffset start, ImmutableArray<CoatAtRisk> coats) =>
        WorkConflict.Between(_works, coats, hours).Select(c => _reasons.Harmed(start, c));

    /// <summary>Whether there is any, without a word on it: asked for minute by minute.</summary>
    private IEnumerable<StartReason> BrieflyConflictsOf(ImmutableArray<CoatAtRisk> coats) =>
        _works.Any(w => coats.Any(c => c.IsHarmedBy(w, w.From > hours.Now ? w.From : hours.Now, w.To))) ? [new StartReason(StartReasonKind.SharedAir, StartWeight.Waits, null, Words.Sentence.None)] : [];

    private WorkPlan PlanAt(DateTimeOffset start) => WorkPlan.Of(
        [.. _surfaces.Select(s => new SurfaceWork(s.Surface, s.First, s.First - 1 + s.Times.Length, s.Sections, s.Sections, s.DryFrom!.Value > start ? s.DryFrom.Value : start, s.Times))],
        pace,
        start,
        IsSplit ? (from, length, _) => hours.Fit(from, length) ?? from : null);

    private static bool IsTimed(CarToPlan car) => !car.Surfaces.Any(s => s.Times.IsEmpty || s.DryFrom is null);

    /// <summary>Whether a whole day holds the work once every panel is dry; where the shop never opens, no day has to.</summary>
    private static bool AnyDayHolds(CarToPlan car, SectionPace pace, ShopHours hours)
    {
        WorkPlan plan = WorkPlan.Of(
            [.. car.Surfaces.Select(s => new SurfaceWork(s.Surface, 1, s.Times.Length, s.Sections, s.Sections, hours.Now, s.Times))], pace, hours.Now);
        TimeSpan length = plan.DoneAt!.Value - plan.Layers[0].BeginsAt;
        return hours.Days.IsEmpty || hours.Days.Any(d => !(d.Opens + length > d.LocksUp));
    }

    private CoatAtRisk AtRisk(WorkPlan plan, LayerWork layer)
    {
        SurfaceToPlan surface = car.Surfaces.First(s => s.Surface == layer.Surface);
        DateTimeOffset? next = plan.Layers.FirstOrDefault(l => l.Surface == layer.Surface && l.Layer == layer.Layer + 1)?.BeginsAt;
        return CoatAtRisk.Planned(car.Job, car.Bay, car.Airspace, layer, surface.Risks[layer.Layer - surface.First], next);
    }

    private static DateTimeOffset Minute(DateTimeOffset at)
    {
        long over = at.UtcTicks % Step.Ticks;
        return over == 0 ? at : at + TimeSpan.FromTicks(Step.Ticks - over);
    }
}
