using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>When the work that is left on a car has to be begun at the latest.</summary>
/// <param name="By">The last start today, or on the day the car comes, or its bay is free, to the minute; null where it does not fit any more.</param>
/// <param name="NextFrom">The first start on the next day on which it fits; null where it does not fit there either.</param>
/// <param name="Limit">What a later start would miss.</param>
/// <param name="Text">The same in words.</param>
public sealed record LastStart(DateTimeOffset? By, DateTimeOffset? NextFrom, StartLimit Limit, Sentence Text)
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    /// <summary>Finds it.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">The job.</param>
    /// <param name="queues">The lines of the bays, where somebody has them already.</param>
    /// <returns>The last start; null where nothing is left to go on, no start is too late, the shop is never open, or nobody can tell when the bay is free.</returns>
    /// <remarks>
    /// Every start is tried as it would be then: layers and keep-dry in the climate that is forecast from that start on. A later start is taken to fit no
    /// better than a sooner one. What no day holds goes on in several, and lock-up is no limit to it.
    /// </remarks>
    internal static LastStart? Of(Shop shop, JobState job, BayQueues? queues = null)
    {
        DateTimeOffset here = job.HereFrom(shop.Now);
        if (!BayQueues.IsBegun(job) && (queues is null ? BayQueues.TurnOf(shop, Supposed.Nothing, job) : queues.Of(job)) is { IsBeyondSight: false } turn)
        {
            if (!turn.Free[^1].IsKnown)
            {
                return null;
            }

            here = turn.Free[^1].At > here ? turn.Free[^1].At!.Value : here;
            here = turn.ReadyFrom(shop.Now) is var ready && ready > here ? ready : here;
        }

        return shop.Plan.Hours.DayAt(here) is { } day ? new Search(shop, job).On(day, here) : null;
    }

    private sealed class Search(Shop shop, JobState job)
    {
        private readonly Present _present = new(shop, shop.Now);
        private readonly CoatsAhead _ahead = new(shop, new Present(shop, shop.Now) { Supposed = Supposed.Nothing with { AreColdCarsWarm = !BayQueues.IsBegun(job) } }, job.Job);
        private readonly PromiseWords _words = new(shop.Plan.Hours, shop.Now);

        public LastStart? On(ShopDay day, DateTimeOffset here)
        {
            DateTimeOffset first = day.Opens > here ? day.Opens : here, last = day.LocksUp ?? first + TimeSpan.FromDays(1);
            if (Tried(first) is not { Left.DoneAt: var done })
            {
                return null; // nothing is left
            }

            ShopDay? after = day.LocksUp is { } closes ? shop.Plan.Hours.DayAt(closes) : null;
            bool isOfDays = done > day.LocksUp && !AnyDayHolds();
            DateTimeOffset? todays = isOfDays ? null : day.LocksUp, nexts = isOfDays ? null : after?.LocksUp;
            if (todays is null && Misses(last, null) is null)
            {
                return null; // no start is too late
            }

            DateTimeOffset? next = after is not null && Misses(after.Opens, nexts) is null ? after.Opens : null;
            Sentence otherwise = next is { } from ? (Sentence)$"wait for {_words.Clock(from)}" : $"plan fewer layers: it does not fit the next day either";
            if (Misses(first, todays) is { } misses)
            {
                Sentence today = first > shop.Now ? _words.Clock(first) : $"today any more";
                return new LastStart(null, next, misses, $"It does not fit {today}: {Words(misses)}; {otherwise}.");
            }

            while (last - first > Minute)
            {
                DateTimeOffset middle = first + ((last - first) / 2);
                (first, last) = Misses(middle, todays) is null ? (middle, last) : (first, middle);
            }

            StartLimit limit = Misses(last, todays) ?? StartLimit.Closing;
            DateTimeOffset by = first - TimeSpan.FromTicks(first.UtcTicks % Minute.Ticks);
            Sentence text = next is null
                ? (Sentence)$"Start by {_words.Clock(by)}: begun later, {Words(limit)}, and it does not fit the next day either."
                : $"Start by {_words.Clock(by)} or {otherwise}: begun later, {Words(limit)}.";
            return new LastStart(by, next, limit, text);
        }

        /// <summary>Whether a day within sight holds all that is left; else its layers go on in different days, as the day plan has it.</summary>
        private bool AnyDayHolds() => BayQueues.HoursOf(shop).Days.Any(d => d.Opens > shop.Now && !(Tried(d.Opens)!.Value.Left.DoneAt > d.LocksUp));

        /// <summary>What a start misses; null where it fits.</summary>
        private StartLimit? Misses(DateTimeOffset from, DateTimeOffset? lockUp)
        {
            (WorkLeft left, PromiseOutlook outlook) = Tried(from)!.Value;
            return left.DoneAt > lockUp ? StartLimit.Closing
                : left.Unfit is not null ? StartLimit.Recoat
                : outlook is { Standing: PromiseStanding.Ahead, ChanceOnceLifted: < PromiseAdvice.UsualTarget } ? StartLimit.Promise
                : null;
        }

        private (WorkLeft Left, PromiseOutlook Outlook)? Tried(DateTimeOffset from)
        {
            PromiseScene scene = PromiseScene.BegunAt(shop, _present, job, from, _ahead);
            return scene.Left is { } left ? (left, scene.Outlook([], PromiseReport.PromisedAt(job))) : null;
        }

        private Sentence Words(StartLimit limit) => limit switch
        {
            StartLimit.Closing => $"the last layer is not done before lock-up",
            StartLimit.Recoat => $"a layer comes too late for the one below it",
            _ => $"the promise of {_words.Clock(PromiseReport.PromisedAt(job)!.Value)} is not safe",
        };
    }
}

/// <summary>What a later start would miss.</summary>
public enum StartLimit
{
    /// <summary>Lock-up: the last layer would not be done before it.</summary>
    Closing,

    /// <summary>Recoat: a layer would come too late for the one below it.</summary>
    Recoat,

    /// <summary>The promise.</summary>
    Promise,
}
