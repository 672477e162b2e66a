using System.Collections.Immutable;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Folds messages into a shop. Time enters here, once, and only moves forward.</summary>
/// <remarks>
/// Before a message, everything that falls due up to it happens at its own due instant, in order. So no answer depends on when anybody
/// asked, and the same messages give the same shop however they are batched.
/// </remarks>
public static class ShopFold
{
    /// <summary>Takes a message.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="message">The message; one from before the present is taken at the present.</param>
    /// <returns>The shop after it, and what happened on the way, in order.</returns>
    public static (Shop Shop, ImmutableArray<ShopEvent> Happened) Take(Shop shop, Message message)
    {
        shop = History.TidyWarnings(shop);
        var happened = ImmutableArray.CreateBuilder<ShopEvent>(1); // most readings bring one thing about
        DateTimeOffset at = message.At > shop.Now ? message.At : shop.Now;
        shop = shop.FiledUpTo(at);
        while (NextDueAt(shop) is { } due && due <= at)
        {
            DateTimeOffset instant = due > shop.Now ? due : shop.Now;
            shop = Step(shop, new Message.ClockReached(instant), instant, happened).FiledUpTo(at);
        }

        return (Step(shop, message, at, happened), happened.DrainToImmutable());
    }

    /// <summary>When something may fall due next, if nothing comes before: not after it does, and seldom more than a probe's patience before.</summary>
    /// <param name="shop">The shop.</param>
    /// <returns>The instant; null where nothing can.</returns>
    public static DateTimeOffset? NextDueAt(Shop shop)
    {
        DateTimeOffset? bays = shop.Bays.NextFiledAt, jobs = shop.DueJobs.NextAt, conflicts = shop.ConflictsDueAt;
        DateTimeOffset? next = jobs is null || bays <= jobs ? bays : jobs;
        return conflicts is null || next <= conflicts ? next : conflicts;
    }

    private static Shop Step(Shop shop, Message message, DateTimeOffset at, ImmutableArray<ShopEvent>.Builder happened)
    {
        shop = at > shop.Now ? Evolution.Evolve(shop, new ShopEvent.TimePassed(at)) : shop;
        shop = Apply(shop, message is Message.ReadingCame { Raw: var next } ? AheadLooks.Decide(shop, next) : Backlog.Decide(shop, message), happened);
        int before = happened.Count;
        shop = Apply(shop, Intake.Decide(shop, message), happened);
        ShopEvent? taken = happened.Count > before ? happened[before] : null;
        RawReading? followed = (taken as ShopEvent.ReadingBelieved)?.Raw ?? (taken is ShopEvent.ReadingDoubted { IsFollowed: true, Raw: var half } ? half : null);
        string? heard = followed?.Bay, spoke = heard;
        if ((followed ?? (taken as ShopEvent.ReadingDoubted)?.Raw) is { } judged)
        {
            shop = Apply(shop, StandingLooks.Decide(shop, judged), happened);
        }

        if (followed is not null)
        {
            shop = Apply(shop, ClimateLooks.Decide(shop, followed), happened);
            shop = Apply(shop, HeatLooks.Decide(shop, followed), happened);
            shop = Apply(shop, UnreadLamps.Decide(shop, followed), happened);
        }

        if ((followed ?? (taken as ShopEvent.ReadingDoubted)?.Raw) is { } told)
        {
            Disbelief? why = (taken as ShopEvent.ReadingDoubted)?.Why;
            shop = Apply(shop, ProbeBelief.Decide(shop, told, why), happened);
            shop = Apply(shop, StillWarnings.Decide(shop, told, happened, before), happened);
            spoke = why is { } reason && Refusal.TellsOfTheProbe(reason) ? told.Bay : heard;
        }

        foreach (string bay in BaysToJudge(shop, spoke, taken))
        {
            shop = Apply(shop, Watchman.JudgeDue(shop, shop.Bays[bay]), happened);
            shop = Apply(shop, ProbeSilence.Decide(shop, shop.Bays[bay]), happened);
        }

        shop = Apply(shop, CoatReviews.Decide(shop, heard is null ? null : shop.Bays[heard]), happened);
        if (taken is ShopEvent.TapTakenDown tapped)
        {
            shop = Apply(shop, CoatReviews.ClearEnded(shop), happened);
            shop = Apply(shop, TapLooks.Decide(shop, tapped.Job, tapped.Tap), happened);
            shop = Apply(shop, UnreadLamps.Decide(shop, shop.Jobs[tapped.Job]), happened);
        }

        shop = Apply(shop, UnreadLamps.Due(shop), happened);

        shop = Apply(shop, Conflicts.Decide(shop, taken), happened);
        shop = Apply(shop, LessonDraws.Decide(shop), happened);
        shop = Apply(shop, Rulings.Decide(shop, happened, before), happened);
        shop = Apply(shop, PromiseLooks.Decide(shop, happened, before), happened);
        return Apply(shop, Closings.Decide(shop), happened);
    }

    private static IEnumerable<string> BaysToJudge(Shop shop, string? heard, ShopEvent? taken)
    {
        if (taken is ShopEvent.PlanReplaced)
        {
            return shop.Bays.Ids.Order(StringComparer.Ordinal);
        }

        IEnumerable<string> due = shop.Bays.NextFiledAt <= shop.Now ? Due(shop) : [];
        return heard is null || shop.Bays[heard].Alarms.IsEmpty ? due : due.Append(heard).Distinct();
    }

    private static IEnumerable<string> Due(Shop shop) => shop.Bays.FiledBy(shop.Now).Where(b => b.DueAt <= shop.Now).Select(b => b.Plan.Bay);

    private static Shop Apply(Shop shop, IEnumerable<ShopEvent> decided, ImmutableArray<ShopEvent>.Builder happened)
    {
        if (decided is ShopEvent[] { Length: 0 })
        {
            return shop; // of all that is looked at with a reading, most finds nothing: not even that is asked one by one
        }

        foreach (ShopEvent e in decided)
        {
            shop = Evolution.Evolve(shop, e);
            happened.Add(e);
        }

        return shop;
    }
}
