using System.Collections.Immutable;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Notices that a probe repeats one value for longer than it can be right, and that it moves again.</summary>
/// <remarks>
/// From the first of the equal values on it is not believed, however late that was noticed: what coats earned by it is reckoned anew, by what another
/// probe of the same air or panel says, else by all that may have become of the value. What speaks against it is its other quantity, another
/// probe, a jump at the end, or nothing but its own habit; only then is it believed after all where it goes on as a sound one does.
/// </remarks>
internal static class StandingLooks
{
    private static readonly ImmutableArray<Quantity> OfAir = [Quantity.Temperature, Quantity.Humidity], OfPanel = [Quantity.Temperature];

    /// <summary>Decides what a reading says of how its probe stands.</summary>
    /// <param name="shop">The shop, the reading taken in.</param>
    /// <param name="raw">The reading.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, RawReading raw)
    {
        if (shop.Bays.Find(raw.Bay) is not { } bay || bay.IndexOf(raw.Probe) is not (>= 0 and var index)
            || bay.Logs[index] is not { Newest: { } newest, OutvotedAt: null, Probe.Measures: not Measures.Outdoor } log)
        {
            return [];
        }

        List<ShopEvent>? events = null;
        foreach (Quantity what in log.Probe.Measures == Measures.Panel ? OfPanel : OfAir)
        {
            if (log.Standing.Of(what) is { } standing && Look(shop, bay, index, what, standing, newest) is { } happened)
            {
                (events ??= []).Add(happened);
            }
        }

        return events is null ? [] : events.Concat(CoatReviews.LookAgain(shop, raw.Bay));
    }

    private static ShopEvent? Look(Shop shop, BayState bay, int index, Quantity what, Standing standing, Sample newest)
    {
        ProbeLog log = bay.Logs[index];
        (string id, string probe) = (bay.Plan.Bay, log.Probe.Id);
        Still? open = log.Standing.Open(what);
        if (open is not null && standing.Last is { } over && over.Until > open.From.At)
        {
            return new ShopEvent.ValueMoved(id, probe, what, open.MayBeBorneOut && log.Standing.IsByAStep(newest.At));
        }

        bool isSuspected = open?.Why == StillReason.Suspected;
        if (open?.MayBeBorneOut == false || (what == Quantity.Temperature && newest.HeldWithinK > 0) || ProbeTwins.IsLent(bay, index, shop.Now))
        {
            return null;
        }

        if (log.Standing.JumpedFrom(what, log.Probe.Every, newest.At) is { } run)
        {
            return IsKnownToEnd(log, what, newest.At) ? null : new ShopEvent.ValueStood(id, probe, new Still(what, log.BeginningOf(run.Since), newest, StillReason.Jumped, null));
        }

        if (!log.Standing.IsRun(what, log.Probe.Every) && !log.Standing.MayBeSuspect(what, log.Probe.Every))
        {
            return null;
        }

        StillReason? why = log.Standing.SuspicionOf(what, log.Probe.Every);
        (StillReason Why, string Probe)? other = why == StillReason.OtherMoved && what == Quantity.Humidity ? null : StillWitness.Of(shop, bay, index, what, standing);
        if (other is null && why is null)
        {
            return open is null ? Suspicion(shop, bay, index, what, standing) : null;
        }

        var still = new Still(what, open?.From ?? log.BeginningOf(standing.Since), null, other?.Why ?? why!.Value, other?.Probe);
        return open is not null && still.MayBeBorneOut && !isSuspected ? null : new ShopEvent.ValueStood(id, probe, still);
    }

    private static bool IsKnownToEnd(ProbeLog log, Quantity what, DateTimeOffset at) => log.Standing.Stills.Any(s => s.What == what && s.To?.At == at);

    private static ShopEvent.ValueStood? Suspicion(Shop shop, BayState bay, int index, Quantity what, Standing standing)
    {
        ProbeLog log = bay.Logs[index];
        string? beside = StillWitness.Hinting(shop, bay, index, what, standing);
        return beside is not null || log.Standing.IsSuspect(what, log.Probe.Every)
            ? new ShopEvent.ValueStood(bay.Plan.Bay, log.Probe.Id, new Still(what, log.BeginningOf(standing.Since), null, StillReason.Suspected, beside))
            : null;
    }
}
