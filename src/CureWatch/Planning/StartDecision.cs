using System.Collections.Immutable;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Whether a car can be coated now, where to begin, and every reason of every surface against it.</summary>
/// <param name="Verdict">The answer for the surface to begin with.</param>
/// <param name="From">When that one may be begun; null where it may now, or waiting does not help.</param>
/// <param name="First">The surface to begin with; null where nothing is left.</param>
/// <param name="Answers">Every surface, in the order they were planned.</param>
/// <param name="Reasons">What is about the whole car.</param>
/// <param name="Plan">All the work left on the car, in the order to go about it; null where nothing of it can be timed.</param>
/// <param name="Day">The day it was decided in.</param>
public sealed record StartDecision(
    StartVerdict Verdict,
    TimeBounds? From,
    StartAnswer? First,
    ImmutableArray<StartAnswer> Answers,
    ImmutableArray<StartReason> Reasons,
    WorkPlan? Plan,
    StartDay Day)
{
    /// <summary>Decides.</summary>
    /// <param name="surfaces">The evidence of every surface asked about, in the order they were planned.</param>
    /// <param name="day">The shop's day.</param>
    /// <param name="promise">What was promised of the car.</param>
    /// <returns>The decision.</returns>
    /// <remarks>
    /// Begun is with what may be begun now, and of that with what is soonest too late for its next layer; then with what may be begun soonest; among
    /// equals in the order planned.
    /// </remarks>
    public static StartDecision On(IReadOnlyList<StartEvidence> surfaces, StartDay day, StartPromise promise)
    {
        ImmutableArray<StartAnswer> answers = [.. surfaces.Select(e => StartAnswer.To(e, day))];
        ImmutableArray<StartAnswer> inOrder =
        [
            .. answers.Where(a => a.Evidence.Next is not null)
                .OrderBy(a => a.Verdict).ThenBy(a => a.From?.Latest ?? DateTimeOffset.MinValue).ThenBy(a => a.ClosesAt ?? DateTimeOffset.MaxValue),
        ];
        SurfaceWork[] work = [.. inOrder.Select(a => a.Work(day.Now)).OfType<SurfaceWork>()];
        WorkPlan? plan = work.Length == 0 ? null : WorkPlan.Of(work, day.Habits.Pace, day.Now, day.WorkHours is { } hours ? hours.Place : null);
        StartAnswer? first = inOrder.FirstOrDefault();
        return new StartDecision(
            first?.Verdict ?? StartVerdict.No, first?.From, first, answers, [.. CarReasons(answers, plan, day, promise)], plan, day)
        {
            InOrder = inOrder,
        };
    }

    /// <summary>Those with something left to go on, in the order to go about it.</summary>
    public ImmutableArray<StartAnswer> InOrder { get; private init; } = [];

    /// <summary>The decision in a sentence.</summary>
    public Sentence Text => (Verdict, First) switch
    {
        (_, null) => $"Nothing is left to go on: every planned layer is on.",
        (StartVerdict.Yes, { } first) => $"Start now: {Passes(first)}{first.Evidence.Name} first{Ends()}.",
        (StartVerdict.Wait, { } first) => $"Wait until {Day.Clock(From?.Latest)}: {Because(first)}",
        (_, { } first) => $"Not yet: {Because(first)}{Meanwhile()}",
    };

    /// <summary>What the answer takes for granted, in words.</summary>
    public ImmutableArray<Sentence> Assumed =>
    [
        .. Answers.Select(a => a.Evidence.ClimateAhead).Distinct(),
        $"A section takes {Day.Habits.Pace.Apply:m\\:ss} to apply and {Day.Habits.Pace.Level:m\\:ss} to level, {(Day.Habits.Pace.People == 1 ? (Sentence)$"one person works" : $"one applies and another levels")}.",
        .. Answers.Any(a => a.Verdict == StartVerdict.No && a.Evidence.Next is not null)
            ? [$"What is not ready is put right by the time it is its turn."]
            : Array.Empty<Sentence>(),
        .. Answers.Any(a => a.Plan is not null && a.Evidence.Night is null && a.DryAt is not null)
            ? [$"The night to come is not known there: nobody measures its air."]
            : Array.Empty<Sentence>(),
    ];

    private static IEnumerable<StartReason> CarReasons(
        ImmutableArray<StartAnswer> answers, WorkPlan? plan, StartDay day, StartPromise promise)
    {
        if (plan?.DoneAt > day.Today?.LocksUp && answers.All(a => a.Reasons.All(r => r.Kind is not (StartReasonKind.ClosingTime or StartReasonKind.Closed))))
        {
            LayerWork late = plan.Layers.First(l => l.DoneAt > day.Today?.LocksUp);
            yield return new StartReason(
                StartReasonKind.ClosingTime,
                StartWeight.Notes,
                null,
                $"Not all of it fits before lock-up {day.Clock(day.Today?.LocksUp)}: layer {late.Layer} of {late.Surface} would be done {day.Clock(late.DoneAt)}.",
                $"Leave out what cannot wait for its next layer, or begin it the next day.");
        }

        StartTurn? turn = promise.Turn;
        if (turn?.Behind is { } behind)
        {
            yield return new StartReason(
                StartReasonKind.BayTaken,
                StartWeight.Notes,
                null,
                $"{turn.Bay} is taken by {behind}{(turn.FreeAt is null ? (Sentence)$", and nobody can tell until when" : $" until {day.Clock(turn.FreeAt)} at the latest")}.",
                $"Whoever brings it in all the same tells its first act, such as the wipe-down: then it is reckoned as being there.");
        }

        if (promise.PromisedAt is not { } promised || plan is null)
        {
            yield break;
        }

        DateTimeOffset? collect = turn is not null ? turn.CollectFrom : promise.CollectAfterAll(answers, plan);
        if (!(collect <= promised))
        {
            Sentence begun = turn?.BeginsAt > day.Now + CarPlanner.Step ? (Sentence)$"Begun {day.Clock(turn.BeginsAt)}" : $"Begun now";
            yield return new StartReason(
                StartReasonKind.Promise,
                StartWeight.Notes,
                null,
                $"{begun}, the car could be collected {(collect is null ? (Sentence)$"at no time anybody can tell" : $"from {day.Clock(collect)} at the latest")}; "
                + $"promised is {day.Clock(promised)}.",
                $"Tell whoever promised it.");
        }
    }

    private Sentence Passes(StartAnswer first) => Plan?.Layers.FirstOrDefault(l => l.Surface == first.Evidence.Surface.Id) switch
    {
        { IsTimed: false } => $"smaller sections, judge by eye, ",
        { Sections: > 1 } when Day.Habits.Pace.People > 1 && first.Evidence.Times[0].SectionsPerPass(Day.Habits.Pace) == long.MaxValue => $"one levels behind the other, ",
        { Sections: > 1 } work when first.Evidence.Times[0].HasToBeLevelled =>
            work.SectionsPerPass >= work.Sections ? (Sentence)$"all {work.Sections} sections in a pass, " : work.SectionsPerPass == 1 ? (Sentence)$"{1} section a pass, " : $"{work.SectionsPerPass:0} sections a pass, ",
        _ => $"",
    };

    private Sentence Ends()
    {
        if (Plan is not { DoneAt: { } done })
        {
            return Sentence.None;
        }

        Sentence layer = Plan.Layers[^1].Layer > 1 ? (Sentence)$"layer {Plan.Layers[^1].Layer} done" : $"done";
        return Day.Today?.LocksUp is { } lockUp ? (Sentence)$"; {layer} {Day.Clock(done)}, lock-up {Day.Clock(lockUp)}" : $"; {layer} {Day.Clock(done)}";
    }

    private static Sentence Because(StartAnswer first) => Sentence.Join(" ", first.Reasons
        .Where(r => r.Weight != StartWeight.Notes)
        .OrderByDescending(r => first.Verdict == StartVerdict.Wait ? r.Until?.Latest : null)
        .Take(1).SelectMany(r => new[] { r.Text, r.Help }).OfType<Sentence>());

    private Sentence Meanwhile() => From?.Latest is { } from ? (Sentence)$" And wait until {Day.Clock(from)}." : $"";
}

/// <summary>What was promised of a car.</summary>
/// <param name="PromisedAt">The pick-up time told to the customer; null where none was.</param>
/// <param name="OthersReadyAt">When the coats that are on, and those of sections that take theirs later, will be ready, at the latest; the beginning of time where there is none, null where nobody can tell.</param>
/// <param name="CollectAfter">When the car can be collected, finished and in opening hours, if its last keep-dry ends at an instant.</param>
public sealed record StartPromise(
    DateTimeOffset? PromisedAt, DateTimeOffset? OthersReadyAt, Func<DateTimeOffset, DateTimeOffset?> CollectAfter)
{
    /// <summary>When a layer may get wet that is done as planned, as the promise itself has it; null where a coat begun now stands for it.</summary>
    public Func<LayerWork, TimeBounds?>? DryAt { get; init; }

    /// <summary>How the car goes as its turn in its bay comes, as the promise itself has it; null where it has none, or is begun.</summary>
    public StartTurn? Turn { get; init; }

    /// <summary>When the car can be collected if the work that is left goes as planned; null where nobody can tell.</summary>
    internal DateTimeOffset? CollectAfterAll(ImmutableArray<StartAnswer> answers, WorkPlan plan)
    {
        WorkPlan dry = DryAt is { } dryAt ? new WorkPlan([.. plan.Layers.Select(l => l with { DryAt = dryAt(l) })]) : plan;
        DateTimeOffset?[] ends = [.. answers.Where(a => a.Evidence.Next is not null).Select(a => dry.ReadyAt(a.Evidence.Surface.Id)?.Latest), OthersReadyAt];
        DateTimeOffset? ready = ends.Any(e => e is null) ? null : ends.Max();
        return ready is { } at ? CollectAfter(at) : null;
    }

    /// <summary>No promise.</summary>
    public static StartPromise None { get; } = new(null, DateTimeOffset.MinValue, at => at);
}

/// <summary>A car none of whose coats is begun, as its turn in its bay comes.</summary>
/// <param name="BeginsAt">When it is begun at the latest; null where no start fits.</param>
/// <param name="CollectFrom">From when it can be collected then, by the slow bound; null where nobody can tell.</param>
/// <param name="Behind">Which car is in the bay before it; null where none is.</param>
/// <param name="Bay">The bay.</param>
/// <param name="FreeAt">When the bay is free of that car at the latest; null where nobody can tell.</param>
public sealed record StartTurn(DateTimeOffset? BeginsAt, DateTimeOffset? CollectFrom, string? Behind, string Bay, DateTimeOffset? FreeAt);
