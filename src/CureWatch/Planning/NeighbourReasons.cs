using System.Collections.Immutable;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Every reason that others in its air give not to start a surface now.</summary>
/// <remarks>
/// What goes on, or begins so soon that people would be warned of it with the first wipe, is waited for. What is planned for later can still be planned otherwise, and is
/// only noted; so is a car that is to come, which is here when it is here. Both name the time at which the other work would harm nothing of it.
/// </remarks>
internal sealed class NeighbourReasons(StartEvidence evidence, WorkPlan plan, StartDay day)
{
    public IEnumerable<StartReason> All()
    {
        if (evidence.Neighbours is not { } near)
        {
            return [];
        }

        ImmutableArray<CoatAtRisk> coats = near.CoatsOf(plan);
        ImmutableArray<WorkConflict> conflicts = WorkConflict.Between(near.Works, coats, day.Days);
        return conflicts.IsEmpty ? [] : conflicts.OrderByDescending(c => c.Work.To).Select(c => Of(c, IsWaitedFor(c.Work) ? FreeFrom([.. conflicts.Select(o => o.Work).Where(IsWaitedFor)], coats) : null));
    }

    private bool IsWaitedFor(AirWork work) => work.Work != HarmfulWork.CarComesIn && work.From <= day.Now + WorkConflict.Lead;

    /// <summary>The first wipe of the earliest start at which none of the works harms any of the coats: each of them begins as one of the works ends.</summary>
    private static DateTimeOffset FreeFrom(AirWork[] works, ImmutableArray<CoatAtRisk> coats)
    {
        TimeSpan delay = works.SelectMany(w => coats.Select(c => w.To - c.From)).Where(d => d > TimeSpan.Zero).Order()
            .First(d => !works.Any(w => coats.Select(c => c.Later(d)).Any(c => c.IsHarmedBy(w, w.From, w.To))));
        return coats[0].From + delay;
    }

    private StartReason Of(WorkConflict conflict, DateTimeOffset? freeFrom) => new(
        StartReasonKind.SharedAir,
        freeFrom is null ? StartWeight.Notes : StartWeight.Waits,
        evidence.Surface.Id,
        ConflictWords.Of(conflict, day.Days),
        conflict.FreeFrom is { } at ? (Sentence)$"Or {ConflictWords.Of(conflict.Work.Work)} from {day.Clock(at)}." : null,
        freeFrom is { } free ? TimeBounds.Known(free) : null);
}
