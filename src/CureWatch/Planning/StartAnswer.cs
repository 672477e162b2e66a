using System.Collections.Immutable;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Whether a surface can be coated now, and if not, every reason.</summary>
/// <param name="Evidence">What it follows from.</param>
/// <param name="Verdict">The answer.</param>
/// <param name="From">When waiting will have cured what it cures, whatever else has to be done; null where there is nothing to wait for.</param>
/// <param name="Reasons">Every reason, the hardest first.</param>
/// <param name="Plan">The work on this surface alone, begun as soon as it may; null where its times are not known.</param>
public sealed record StartAnswer(
    StartEvidence Evidence, StartVerdict Verdict, TimeBounds? From, ImmutableArray<StartReason> Reasons, WorkPlan? Plan)
{
    /// <summary>When it has to stay dry until, if it goes as planned; null where nobody can tell.</summary>
    public TimeBounds? DryAt => Plan?.Layers.Any(l => l.DryAt is not null) == true ? Plan.ReadyAt(Evidence.Surface.Id) : null;

    /// <summary>Answers for a surface.</summary>
    /// <param name="evidence">The evidence.</param>
    /// <param name="day">The shop's day.</param>
    /// <returns>Yes where no reason stands against it; wait where time alone cures all that do; else no.</returns>
    public static StartAnswer To(StartEvidence evidence, StartDay day)
    {
        if (evidence.Next is not { } next)
        {
            return new StartAnswer(
                evidence,
                StartVerdict.No,
                null,
                [new StartReason(StartReasonKind.NothingLeft, StartWeight.Stops, evidence.Surface.Id, $"Every planned layer of {evidence.Name} is on.")],
                null);
        }

        var preparation = new PreparationReasons(evidence, day);
        ImmutableArray<StartReason> reasons =
        [
            .. evidence.ComesAt is { } comes
                ? [new StartReason(StartReasonKind.NotHere, StartWeight.Waits, evidence.Surface.Id, $"The car comes {day.Clock(comes)}.", Until: TimeBounds.Known(comes))]
                : Array.Empty<StartReason>(),
            .. new ClimateReasons(evidence, day).All(),
            .. preparation.All(),
            .. next.Layer > 1 ? new LayerReasons(evidence, next, day).All() : [],
        ];
        DateTimeOffset from = FromOf(reasons)?.Latest ?? day.Now;
        WorkPlan? plan = WorkOf(evidence, next, from) is { } work ? WorkPlan.Of([work], day.Habits.Pace, day.Now) : null;
        if (plan is not null && new NeighbourReasons(evidence, plan, day).All().ToArray() is { Length: > 0 } others)
        {
            reasons = [.. reasons, .. others];
            plan = WorkPlan.Of([WorkOf(evidence, next, FromOf(reasons)?.Latest ?? day.Now)!], day.Habits.Pace, day.Now);
        }

        reasons = plan is null ? reasons : [.. reasons, .. new DayReasons(evidence, plan, day).All()];
        TimeBounds? waits = FromOf(reasons);
        if (waits?.Latest is { } until && ClosingOf(next) is { } closes && closes >= day.Now && until > closes)
        {
            bool isOnlyForPeople = reasons.All(r => !(r.Until?.Latest > closes) || r.Kind is StartReasonKind.Closed or StartReasonKind.ClosingTime);
            reasons = [.. reasons, TooLate(evidence, until, closes, isOnlyForPeople, day)];
            plan = plan is null ? null : WorkPlan.Of([WorkOf(evidence, next, day.Now)!], day.Habits.Pace, day.Now);
            waits = null;
        }

        return new StartAnswer(
            evidence,
            reasons.Any(r => r.Weight == StartWeight.Stops) ? StartVerdict.No : reasons.Any(r => r.Weight == StartWeight.Waits) ? StartVerdict.Wait : StartVerdict.Yes,
            waits,
            [.. reasons.Concat(waits?.Latest is { } start ? preparation.AfterWaiting(start) : []).OrderBy(r => r.Weight).ThenBy(r => r.Kind)],
            plan);
    }

    /// <summary>What is left to do on it.</summary>
    internal SurfaceWork? Work(DateTimeOffset now) => Evidence.Next is { } next ? WorkOf(Evidence, next, From?.Latest ?? now) : null;

    /// <summary>When the recoat window of what it goes over closes; null where nothing does.</summary>
    internal DateTimeOffset? ClosesAt => Evidence.Next is { } next ? ClosingOf(next) : null;

    private static DateTimeOffset? ClosingOf(NextLayer next) => next.Below.Where(b => !b.IsFoundClear).Min(b => b.Recoat?.ClosesAt?.Earliest);

    /// <summary>What time alone would cure is of no use where the layer below takes it no more by then.</summary>
    private static StartReason TooLate(StartEvidence evidence, DateTimeOffset waitsUntil, DateTimeOffset closes, bool isOnlyForPeople, StartDay day) => new(
        StartReasonKind.RecoatMissed,
        StartWeight.Stops,
        evidence.Surface.Id,
        $"To wait until {day.Clock(waitsUntil)} is too long: the layer below takes another until {day.Clock(closes)} only.")
    {
        Help = isOnlyForPeople
            ? (Sentence)$"Stay and do it by then, or see the sheet and leave it out."
            : $"Put right by then what it waits for, or see the sheet and leave it out.",
    };

    private static SurfaceWork? WorkOf(StartEvidence evidence, NextLayer next, DateTimeOffset from) => evidence.Times.IsEmpty
        ? null
        : new SurfaceWork(
            evidence.Surface.Id, next.Layer, evidence.Surface.Layers, next.Sections.Length, evidence.Surface.Sections, from, evidence.Times)
        {
            BegunAt = next.BegunAt,
        };

    private static TimeBounds? FromOf(ImmutableArray<StartReason> reasons) =>
        reasons.Select(r => r.Until).OfType<TimeBounds>().Aggregate((TimeBounds?)null, (last, until) => last?.OrLater(until) ?? until);
}

/// <summary>Whether somebody can start.</summary>
public enum StartVerdict
{
    /// <summary>Now.</summary>
    Yes,

    /// <summary>After waiting, with nothing to be done.</summary>
    Wait,

    /// <summary>Only after somebody has done something.</summary>
    No,
}
