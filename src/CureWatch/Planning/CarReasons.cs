using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Every reason against beginning a car at an instant.</summary>
internal sealed class CarReasons(CarToPlan car, BayFree free, ShopHours hours)
{
    /// <summary>What is the matter before any work is planned: the air, the arrival, the bay, the doors.</summary>
    public IEnumerable<StartReason> Before(DateTimeOffset start)
    {
        if (car.Surfaces.Any(s => s.Times.IsEmpty))
        {
            yield return Reason(StartReasonKind.AirSilent, StartWeight.Stops, $"Nobody measures the air of {car.Bay}: how long its coats take there is not known.") with
            {
                Help = $"Look at the air probe: its battery, its place and the network.",
            };
        }

        foreach (SurfaceToPlan wet in car.Surfaces.Where(s => s.DryFrom is null))
        {
            yield return Reason(StartReasonKind.Arrival, StartWeight.Stops, $"{wet.Surface} comes in cold, and does not get dry enough in this air.") with
            {
                Surface = wet.Surface,
                Help = car.Means.Heat is null ? (Sentence)$"Leave the car in a warm dry place first." : $"Warm the bay before it comes, or leave the car in a warm dry place first.",
                IsHelpHeat = car.Means.Heat is not null,
            };
        }

        if (car.IsColdUnknown)
        {
            yield return Reason(StartReasonKind.Arrival, StartWeight.Notes, $"How cold it comes in is not known: the coldest it may, {Figures.Degrees(car.ColdestArrivalC)}, it is reckoned with.") with
            {
                Help = $"Say it where it is planned, or read a panel by hand once it is here.",
            };
        }

        if (car.ComesAt > start)
        {
            yield return Waits(StartReasonKind.NotHere, $"The car comes {hours.Clock(car.ComesAt)}.", car.ComesAt.Value);
        }

        if (!free.IsKnown)
        {
            yield return Reason(StartReasonKind.BayTaken, StartWeight.Stops, $"{car.Bay} is taken by {free.Job}, and nobody can tell until when.") with
            {
                Help = $"See what holds that car, or move one of the two to another bay.",
            };
        }
        else if (free.At > start)
        {
            yield return Waits(StartReasonKind.BayTaken, $"{car.Bay} is taken by {free.Job} until {hours.Clock(free.At)}.", free.At.Value);
        }

        if (hours.DayAt(start) is not { } day)
        {
            yield return Reason(StartReasonKind.Closed, StartWeight.Stops, $"The shop does not open within sight.");
        }
        else if (day.Opens > start)
        {
            yield return Waits(StartReasonKind.Closed, $"The shop is closed until {hours.Clock(day.Opens)}.", day.Opens);
        }
    }

    /// <summary>What is the matter with the work itself.</summary>
    public IEnumerable<StartReason> Within(DateTimeOffset start, WorkPlan plan, bool isSplit)
    {
        LayerWork first = plan.Layers[0];
        if (first.BeginsAt > start)
        {
            yield return car.Surfaces.First(s => s.Surface == first.Surface).DryFrom > start
                ? Waits(StartReasonKind.Arrival, $"{first.Surface}, the first panel to be, is dry enough from {hours.Clock(first.BeginsAt)}.", first.BeginsAt) with
                {
                    Surface = first.Surface,
                }
                : Waits(StartReasonKind.ClosingTime, $"{first.Surface} would not be done before lock-up.", first.BeginsAt);
        }

        LayerWork? late = plan.Layers.FirstOrDefault(l => !isSplit ? l.DoneAt > hours.DayAt(start)?.LocksUp : !hours.IsOpen(l.BeginsAt, l.DoneAt));
        if (late is not null)
        {
            Sentence text = $"Layer {late.Layer} of {late.Surface} would be done {hours.Clock(late.DoneAt)}, after lock-up.";
            ShopDay? next = hours.DayAt(start)?.LocksUp is { } lockUp ? hours.DayAt(lockUp) : null;
            yield return isSplit || next is null
                ? Reason(StartReasonKind.ClosingTime, StartWeight.Stops, text) with { Help = $"Plan fewer layers or sections, or stay until it is levelled." }
                : Waits(StartReasonKind.ClosingTime, text, next.Opens);
        }

        if (plan.Layers.FirstOrDefault(l => l.IsTooLate) is { } missed)
        {
            yield return Reason(
                StartReasonKind.RecoatMissed, StartWeight.Stops, $"Layer {missed.Layer} of {missed.Surface} would come only {hours.Clock(missed.BeginsAt)}, when the layer below takes it no more.") with
            {
                Surface = missed.Surface,
                Help = $"Fewer surfaces or sections at a time; where even one is too late, another climate.",
            };
        }

        if (plan.Layers.FirstOrDefault(l => !l.IsTimed) is { } untimed)
        {
            yield return Reason(
                StartReasonKind.JudgeByEye, StartWeight.Notes, $"Level-off of {untimed.Surface} is too short to time in this climate: smaller sections, judge by eye.") with
            {
                Surface = untimed.Surface,
            };
        }

        if (isSplit)
        {
            yield return Reason(StartReasonKind.ClosingTime, StartWeight.Notes, $"No day within sight holds all of it: its layers go on in different days.");
        }
    }

    /// <summary>What is the matter after it: keep-dry and the promise.</summary>
    public IEnumerable<StartReason> After(TimeBounds? ready, DateTimeOffset? collect)
    {
        if (ready?.Latest is null || collect is null)
        {
            yield return Reason(StartReasonKind.NeverDry, StartWeight.Stops, $"Nobody can tell when it would have dried in this climate.") with
            {
                Help = WhatSpeedsItUp,
                IsHelpHeat = true,
            };
        }
        else if (collect > car.PromisedAt)
        {
            yield return Reason(
                StartReasonKind.Promise, StartWeight.Stops, $"The car could be collected from {hours.Clock(collect)} at the latest; promised is {hours.Clock(car.PromisedAt)}.") with
            {
                Help = $"Tell whoever promised it.",
            };
        }
    }

    /// <summary>What its bay has against air in which nothing dries; null where it has nothing. What is too moist already is neither moistened nor only warmed.</summary>
    private Sentence? WhatSpeedsItUp => (car.IsAirMoist, car.Means) switch
    {
        (true, { Dry: { } dry }) => $"Dry the air with {dry}.",
        (true, _) => null,
        (_, { Heat: not null, Moisten: not null }) => $"Warm the bay, or add moisture where the air is too dry.",
        (_, { Heat: { } heat }) => $"Warm the bay with {heat}.",
        (_, { Moisten: { } moisten }) => $"Add moisture with {moisten} where the air is too dry.",
        _ => null,
    };

    /// <summary>What others do in its air, if it is begun at an instant.</summary>
    public StartReason Harmed(DateTimeOffset start, WorkConflict conflict) => Reason(
        StartReasonKind.SharedAir, StartWeight.Waits, $"Begun {hours.Clock(start)}: {ConflictWords.Of(conflict, hours)}") with
    {
        Surface = conflict.Surfaces.Length == 1 ? conflict.Surfaces[0] : null,
        Help = conflict.FreeFrom is { } at ? (Sentence)$"Or {ConflictWords.Of(conflict.Work.Work)} from {hours.Clock(at)}." : null,
    };

    private static StartReason Reason(StartReasonKind kind, StartWeight weight, Sentence text) => new(kind, weight, null, text);

    private static StartReason Waits(StartReasonKind kind, Sentence text, DateTimeOffset until) =>
        new(kind, StartWeight.Waits, null, text, Until: TimeBounds.Known(until));
}
