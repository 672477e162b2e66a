using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>Decides on one arrival: drafts the entries that follow from it, and finds the answer it gets once they are on disk.</summary>
internal sealed class ArrivalJudge(Draft draft, RefusalCounter refusals, StorageWatch storage, ILogger log)
{
    /// <summary>How often the journal notes that time passes while nothing else comes.</summary>
    private static readonly TimeSpan IdleMark = TimeSpan.FromMinutes(1);

    /// <returns>Never an exception: whatever is wrong with one arrival, the next is taken.</returns>
    public Answer On(Arrival arrival, DateTimeOffset now)
    {
        try
        {
            return Decide(arrival, now > draft.Register.At ? now : draft.Register.At);
        }
        catch (Exception e) when (IsOfTheDisk(e))
        {
            Log.KeyNotMade(log, e, arrival.GetType().Name);
            storage.KeysFail(e);
            return new Answer.NotStored($"its key cannot be written: {e.Message}");
        }
#pragma warning disable CA1031 // whatever one arrival breaks, the bay is watched on
        catch (Exception e)
#pragma warning restore CA1031
        {
            Log.ArrivalSkipped(log, e, arrival.GetType().Name);
            return Answer.Refused.ByAnError; // not "send it again": it would break the same for ever
        }
    }

    private Answer Decide(Arrival arrival, DateTimeOffset now)
    {
        switch (arrival)
        {
            case Arrival.Reading a:
                draft.Append([a.Entry], now);
                return Answer.Stored.Plain;
            case Arrival.Refusal a:
                refusals.Count(a.Reason, a.Place);
                return Answer.Stored.Plain;
            case Arrival.Wake:
                if (now - draft.Register.At >= IdleMark || ShopFold.NextDueAt(draft.Register.Shop!) <= now)
                {
                    draft.Append([new Entry.ClockReached()], now);
                }

                return Answer.Stored.Plain;
            case Arrival.Tap a:
                return refusals.Count(a, Enact(a, Requests.OnTap(draft.Register, a, now), now));
            case Arrival.Next a:
                return Enact(Presses.On(draft.Register, a, now), now);
            case Arrival.JobStart a:
                return Enact(Requests.OnJobStart(draft.Register, a, now), now);
            case Arrival.HandOver a:
                return Enact(Requests.OnHandOver(draft.Register, a, now), now);
            case Arrival.Photo a:
                return Enact(PhotoRequests.OnAdd(draft.Register, a), now);
            case Arrival.PhotoRemoval a:
                return Enact(PhotoRequests.OnRemove(draft.Register, a), now);
            case Arrival.LearningReset a:
                return Enact(LearningRequests.OnReset(draft.Register, a), now);
            case Arrival.Planned a:
                return Enact(PlanRequests.On(draft.Register, a, now), now);
            default:
                throw new UnreachableException(arrival.GetType().Name);
        }
    }

    /// <summary>
    /// What was done is taken from a push-button, by whomever: nobody there hears that it was not, and a broker that is told so sends it again before all else.
    /// </summary>
    private Answer Enact(Arrival.Tap tap, Decision decision, DateTimeOffset now)
    {
        try
        {
            return Enact(decision, now);
        }
        catch (Exception e) when (tap.Button is not null && IsOfTheDisk(e))
        {
            Log.TapUnnamed(log, e, tap.Button);
            storage.KeysFail(e);
            return Enact(decision with { Entries = [.. decision.Entries.Select(Unnamed)] }, now);
        }
    }

    private static Entry Unnamed(Entry entry) => entry is Entry.Tapped e ? e with { Tap = e.Tap with { By = null, Note = null } } : entry;

    private static bool IsOfTheDisk(Exception e) => e is IOException or UnauthorizedAccessException;

    private Answer Enact(Decision decision, DateTimeOffset now)
    {
        draft.Append(decision.Entries.AsSpan(), now);
        return decision.Answer;
    }
}
