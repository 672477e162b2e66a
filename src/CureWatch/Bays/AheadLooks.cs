using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Looks ahead in a bay with open coats every ten minutes of its readings, and warns of what is likely.</summary>
/// <remarks>
/// What happens already, or did within two hours, is not told ahead of as well: one episode is one warning ahead and one of the thing itself. What only
/// slows the cure is told where something the bay has still helps.
/// </remarks>
internal static class AheadLooks
{
    /// <summary>How often a bay is looked ahead in. Source (choice): half of the quickest on-delay of what is told by it.</summary>
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(10);

    /// <summary>
    /// How long after it happened something is not told ahead of, and at night until people come. Source (choice): the same water, going and coming; who comes
    /// looks at every coat anyway.
    /// </summary>
    private static readonly TimeSpan SameEpisode = TimeSpan.FromHours(2);

    /// <summary>How long a night is at most; a shop may be shut for several. Source (choice).</summary>
    private static readonly TimeSpan LongestNight = TimeSpan.FromHours(16);

    private const double Nothing = double.NegativeInfinity;

    /// <summary>Decides what the readings so far let foresee, once another comes.</summary>
    /// <param name="shop">The shop, the reading not yet taken in: of two that were taken at one instant, either may come first.</param>
    /// <param name="raw">The reading.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, RawReading raw)
    {
        if (shop.Bays.Find(raw.Bay) is not { } bay)
        {
            return [];
        }

        bool isWatched = bay.Undried.Any(o => o.Point.Air == Place.Outside);
        if (isWatched ? shop.Now - bay.Ahead?.At < Every && !IsToldSince(shop, bay, bay.Ahead!.At) : bay.Ahead is null)
        {
            return [];
        }

        var present = new Present(shop, shop.Now);
        BayAhead? ahead = isWatched ? LookAhead.Of(shop, present, bay) : null;
        return isWatched && ahead is null ? [] : Told(shop, present, bay with { Ahead = ahead });
    }

    /// <summary>Whether a coat may have to stay dry for longer than was known then.</summary>
    private static bool IsToldSince(Shop shop, BayState bay, DateTimeOffset at) => bay.Jobs.Any(job => shop.Jobs[job].Told is [.., var last] && last.ReportedAt > at);

    private static IEnumerable<ShopEvent> Told(Shop shop, Present present, BayState bay)
    {
        yield return new ShopEvent.BayForeseen(bay.Plan.Bay, bay.Ahead);
        Shop foreseen = Evolution.Evolve(shop, new ShopEvent.BayForeseen(bay.Plan.Bay, bay.Ahead));
        foreach (WarningKind now in Enum.GetValues<WarningKind>())
        {
            if (Foreseen.AheadOf(now) is { } ahead)
            {
                ShopEvent[] moved = [.. Watchman.Look(foreseen, SubjectOf(bay, ahead), ExcessOf(shop, bay, now, ahead), default)];
                foreach (ShopEvent told in moved.Concat(moved.Any(e => e is ShopEvent.WarningCleared) ? [] : Reworded(foreseen, SubjectOf(bay, ahead))))
                {
                    yield return told;
                }
            }
        }

        foreach (ShopEvent told in Watchman.Look(foreseen, SubjectOf(bay, WarningKind.OutdoorWets), OutdoorsWetBy(shop, present, bay) ?? Nothing, default))
        {
            yield return told;
        }
    }

    /// <summary>What stands through a night is to say in the morning what is foreseen then.</summary>
    private static IEnumerable<ShopEvent> Reworded(Shop foreseen, Subject subject)
    {
        if (!foreseen.Standing.TryGetValue(subject, out int number))
        {
            yield break;
        }

        Warning told = foreseen.Warnings[number], now = AheadWords.Explained(foreseen, told);
        if (told.Foretold is { } before && now.Foretold is { } after && before.DiffersFrom(after))
        {
            yield return new ShopEvent.WarningReworded(now with { Lead = told.Lead, Wakes = told.Wakes || now.Wakes });
        }
    }

    private static Subject SubjectOf(BayState bay, WarningKind kind) => new(kind) { Bay = bay.Plan.Bay, Air = Place.Outside };

    private static double ExcessOf(Shop shop, BayState bay, WarningKind now, WarningKind ahead)
    {
        if (bay.Ahead?.Of(ahead) is not { } risk || shop.Standing.ContainsKey(SubjectOf(bay, now)) || IsSameEpisode(shop, bay, now))
        {
            return Nothing;
        }

        bool isWet = ahead == WarningKind.CondensingAhead, spoils = isWet || (ahead == WarningKind.PanelHotAhead && AheadWords.IsOpenAt(shop, risk.From));
        return !spoils && risk.Remedies.IsEmpty ? Nothing : risk.SoonChance - (isWet ? AlarmRules.LikelyEnough : AlarmRules.LikelyEnoughForSheet);
    }

    private static bool IsSameEpisode(Shop shop, BayState bay, WarningKind now) => now == WarningKind.Condensing
        ? bay.IsWet(Place.Outside) || bay.WetSpellsIn(Place.Outside) is [.., { To: { } dried }] && (shop.Now - dried < SameEpisode || IsThisNight(shop, dried))
        : bay.Alarms.GetValueOrDefault(SubjectOf(bay, now)) is { } alarm and not Alarm.Normal && alarm.IsTold;

    private static bool IsThisNight(Shop shop, DateTimeOffset at) =>
        shop.Now - at < LongestNight && AheadScene.NightOf(shop.Plan.Hours, shop.Now) is { Leaves: { } leaves } && leaves <= shop.Now
        && AheadScene.LastLockUp(shop.Plan.Hours, shop.Now) <= at;

    /// <summary>How far the coldest panel is below where the air outdoors condenses [K]; null where nobody measures one of them.</summary>
    private static double? OutdoorsWetBy(Shop shop, Present present, BayState bay) =>
        bay.Ahead is not null && AheadScene.OutdoorsOf(shop) is { } outdoors && BayAir.Of(present, bay, Place.Outside)?.ColdestKelvins is { } coldest
            ? CondensationTemperature.OfPressure(outdoors.VapourPressurePa).Kelvins - coldest
            : null;
}
