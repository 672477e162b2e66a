using CureWatch.Products;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Looks at the coats whose windows may have moved or fallen due, and foresees when to look again.</summary>
public static class CoatReviews
{
    /// <summary>Two instants closer than this are one. Source (choice): finer than any window, coarser than rounding.</summary>
    private static readonly TimeSpan Instant = TimeSpan.FromMilliseconds(1);

    /// <summary>A coat nobody has to act on sleeps for half its time to the end of the next window, at least this. Source (choice).</summary>
    private static readonly TimeSpan ShortestSleep = TimeSpan.FromMinutes(5);

    /// <summary>How long it sleeps where no end is in sight in this climate. Source (choice).</summary>
    private static readonly TimeSpan SleepWithoutEnd = TimeSpan.FromHours(6);

    /// <summary>While readings stay away, deadlines come nearer: a coat that is followed is looked at this often all the same.</summary>
    private static readonly TimeSpan ShortestUnfollowed = Panels.Source.EvaporationLimit;

    /// <summary>
    /// An old coat is looked at whenever this part of its age has passed again: in a bay nobody measured for a year it would else be looked at a quarter of
    /// a million times. Source (choice): one of a day each eleven minutes.
    /// </summary>
    private const int PartsOfItsAge = 128;

    /// <summary>
    /// Between two looks the way to the next act gets shorter by this part of it at least, however often a probe speaks; the act itself is
    /// awaited. Source (choice).
    /// </summary>
    private const int PartsOfTheWay = 32;

    /// <summary>Decides what is due.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="bay">The bay whose climate just moved; null where none did.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, BayState? bay)
    {
        bool isAnyDue = shop.DueJobs.NextAt <= shop.Now;
        return isAnyDue ? Review(shop, bay, shop.DueJobs.DueBy(shop.Now).Union(bay?.Jobs ?? []))
            : bay is { Jobs.IsEmpty: false } ? Review(shop, bay, bay.Jobs)
            : [];
    }

    /// <summary>Deadlines may have come nearer: every coat in the bay is looked at at once.</summary>
    internal static IEnumerable<ShopEvent> LookAgain(Shop shop, string bay) =>
        from id in shop.Bays[bay].Jobs
        from watched in shop.Jobs[id].Watched
        where watched.Point?.Bay == bay
        select new ShopEvent.CoatForeseen(watched.Key, shop.Now, shop.Now) { IsDry = watched.IsDry };

    /// <summary>Clears the warnings of coats that are no more.</summary>
    /// <param name="shop">The shop, a tap taken down.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> ClearEnded(Shop shop) =>
        from subject in shop.Standing.Keys.Order(SubjectOrder.Instance)
        where subject is { Job: not null, Layer: > 0 }
        where !shop.Find(subject.Job!)!.Stories.Any(s => s.Surface.Id == subject.Surface
            && s.Living.Any(c => c.Layer == subject.Layer && c.Section == subject.Section))
        select new ShopEvent.WarningCleared(subject, shop.Now);

    private static IEnumerable<ShopEvent> Review(Shop shop, BayState? bay, IEnumerable<string> jobs)
    {
        Present? present = null;
        foreach (JobState job in jobs.Select(j => shop.Jobs[j]).Where(j => j.DueAt <= shop.Now || j.FollowedFrom <= shop.Now))
        {
            foreach (WatchedCoat watched in job.Watched)
            {
                if (watched.ReviewAt <= shop.Now || (watched.FollowedFrom <= shop.Now && bay is not null && watched.Point?.Bay == bay.Plan.Bay))
                {
                    foreach (ShopEvent happened in Review(shop, present ??= new Present(shop, shop.Now), watched))
                    {
                        yield return happened;
                    }
                }
            }
        }
    }

    private static IEnumerable<ShopEvent> Review(Shop shop, Present present, WatchedCoat watched)
    {
        Job job = shop.Jobs[watched.Key.Job].Job;
        CoatWindows windows = present.WindowsOf(job, watched.Story, watched.Coat);
        var acts = new List<DateTimeOffset?>();
        foreach (ShopEvent happened in LevelOff(shop, watched, windows, acts).Concat(Recoat(shop, watched, windows, acts)))
        {
            yield return happened;
        }

        DateTimeOffset? next = acts.Where(a => a > shop.Now).Min();
        DateTimeOffset soon = shop.Now + ForItsAge(shop, watched, ShortestUnfollowed);
        ShopEvent.CoatForeseen foreseen = next is { } act
            ? new ShopEvent.CoatForeseen(watched.Key, act < soon ? act : soon, shop.Now + ((act - shop.Now) / PartsOfTheWay))
            : new ShopEvent.CoatForeseen(watched.Key, WhenSettled(shop, watched, windows), FollowedFrom: null);
        yield return foreseen with { IsDry = IsDry(shop, watched, windows) };
    }

    private static IEnumerable<ShopEvent> LevelOff(Shop shop, WatchedCoat watched, CoatWindows windows, List<DateTimeOffset?> acts)
    {
        Window? window = watched.Coat is { LevelledAt: null, CoveredAt: null } ? windows.LevelOff : null;
        bool isOpen = window is not null;
        bool matters = watched.Laws.IfMissed == IfMissed.Hold;
        DateTimeOffset? due = Round(isOpen ? windows.LevelOffLookFrom : null);
        DateTimeOffset? closes = Round(window?.ClosesAt?.Earliest);
        DateTimeOffset? closing = Round(Window.ClosingFrom(due, closes));
        DateTimeOffset? missed = closes + Instant;
        bool isMissed = isOpen && shop.Now >= missed && matters;
        bool isClear = watched.Story.IsFoundClear(watched.Coat.Layer, watched.Coat.Section, closes);
        TimeSpan? lead = closes - shop.Now;
        if (isOpen)
        {
            acts.AddRange([due, matters ? closing : null, matters ? missed : null]);
        }

        return Watchman.Tell(shop, Subject(WarningKind.LevelDue, watched), isOpen && shop.Now >= due && !isMissed && !isClear, lead)
            .Concat(Watchman.Tell(
                shop, Subject(WarningKind.LevelClosing, watched), isOpen && matters && shop.Now >= closing && !isMissed, lead))
            .Concat(Watchman.Tell(shop, Subject(WarningKind.LevelMissed, watched), isMissed && !isClear));
    }

    private static IEnumerable<ShopEvent> Recoat(Shop shop, WatchedCoat watched, CoatWindows windows, List<DateTimeOffset?> acts)
    {
        bool isAwaited = watched.Story.AwaitsLayerOver(watched.Coat);
        Window? window = isAwaited ? windows.Recoat : null;
        DateTimeOffset? closes = Round(window?.ClosesAt?.Earliest);
        DateTimeOffset? closing = Round(Window.ClosingFrom(window?.OpensAt.Latest, closes));
        DateTimeOffset? missed = closes + Instant;
        bool isMissed = shop.Now >= missed;
        bool isClear = watched.Story.IsFoundClear(watched.Coat.Layer, watched.Coat.Section, closes);
        acts.AddRange([closing, missed]);
        return Watchman.Tell(
                shop, Subject(WarningKind.RecoatClosing, watched), isAwaited && shop.Now >= closing && !isMissed, closes - shop.Now)
            .Concat(Watchman.Tell(shop, Subject(WarningKind.RecoatMissed, watched), isAwaited && isMissed && !isClear));
    }

    private static bool IsDry(Shop shop, WatchedCoat watched, CoatWindows windows) => DryBy(watched, windows) <= shop.Now;

    /// <summary>When the keep-dry of a coat is over at the latest; null where nobody can tell. A coat under another is guarded by that one.</summary>
    internal static DateTimeOffset? DryBy(WatchedCoat watched, CoatWindows windows) =>
        windows.WettedInKeepDry.Any(w => w.DriedAt is null) ? null
        : windows.KeepDry is { } keepDry ? keepDry.ClosesAt?.Latest
        : watched.Coat.CoveredAt;

    /// <summary>Null once every window has passed its latest end: nothing but a tap can change it then.</summary>
    private static DateTimeOffset? WhenSettled(Shop shop, WatchedCoat watched, CoatWindows windows)
    {
        DateTimeOffset?[] ends = [.. Awaited(watched, windows).Select(w => w.ClosesAt is { } closes ? closes.Latest : w.OpensAt.Latest)];
        if (ends.All(e => e <= shop.Now) && windows.WettedInKeepDry.All(w => w.DriedAt is not null))
        {
            return null;
        }

        TimeSpan half = ends.Where(e => e > shop.Now).Min() is { } next ? (next - shop.Now) / 2 : SleepWithoutEnd;
        TimeSpan shortest = ForItsAge(shop, watched, ShortestSleep);
        return shop.Now + (half > shortest ? half : shortest);
    }

    /// <summary>What was levelled, or lies under another layer, waits for no level-off any more, and the outermost for no layer.</summary>
    private static IEnumerable<Window> Awaited(WatchedCoat watched, CoatWindows windows) =>
        (watched.Coat is { LevelledAt: null, CoveredAt: null } ? windows.All : windows.OfItsCure)
            .Where(w => w.Stage != WindowStage.Recoat || watched.Story.AwaitsLayerOver(watched.Coat));

    private static TimeSpan ForItsAge(Shop shop, WatchedCoat watched, TimeSpan atLeast)
    {
        TimeSpan ofItsAge = (shop.Now - watched.Coat.StartedAt) / PartsOfItsAge;
        return ofItsAge > atLeast ? ofItsAge : atLeast;
    }

    private static DateTimeOffset? Round(DateTimeOffset? at) =>
        at is { } instant ? new DateTimeOffset(((instant.Ticks + Instant.Ticks - 1) / Instant.Ticks) * Instant.Ticks, TimeSpan.Zero) : null;

    private static Subject Subject(WarningKind kind, WatchedCoat watched) =>
        new(kind) { Job = watched.Key.Job, Surface = watched.Key.Surface, Layer = watched.Key.Layer, Section = watched.Key.Section };
}
