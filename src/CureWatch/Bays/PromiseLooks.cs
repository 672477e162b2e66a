using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Watches what customers were told, from the first coat on: warns where it is at risk, and says which time to tell instead.</summary>
/// <remarks>
/// Before the first coat a car is a plan, and which start is too late is said with it.
/// One time is said and kept. Another is worth telling where the promise is at risk for a quarter of an hour, or where for half an hour the car could be
/// collected an hour sooner than it was promised and than was foreseen then; once said it changes only by half an hour or more. Source (choice): nobody
/// calls a customer twice for ten minutes, and who comes on Thursday because it suits him is not called for Tuesday. What gets it back is reckoned anew at each
/// look, and no longer once the time that was told is past. A warning that stands says what the last look found, and rings no more for it. Where nothing is heard or told, a look
/// comes when a twelfth of the silence has passed once more, a day at most, and when a probe is heard again: a shop that was off for a year is not looked at hour by hour when it starts again. What came of a promise is taken down when its time has come,
/// and judged anew only where somebody tells later what was before that.
/// </remarks>
internal static class PromiseLooks
{
    /// <summary>The chance below which a promise is at risk [1]. Source (choice): by the deadband of its rule it is safe again at 95 %, the slow bound.</summary>
    private const double RiskBelow = 0.9;

    /// <summary>Parts of the time that is left between two looks. Source (choice).</summary>
    private const int Parts = 12;

    private static readonly TimeSpan Shortest = TimeSpan.FromMinutes(5), Longest = TimeSpan.FromHours(1), AtRisk = TimeSpan.FromMinutes(30);

    /// <summary>The longest between two looks while nothing is heard. Source (choice): who comes back finds what was reckoned the day before.</summary>
    private static readonly TimeSpan Unheard = TimeSpan.FromDays(1);

    private static readonly TimeSpan WorthTelling = TimeSpan.FromMinutes(30), Sooner = TimeSpan.FromHours(1), SoonerFor = TimeSpan.FromMinutes(30);

    /// <summary>What only people can lift counts once there is no more time than this. Source (choice).</summary>
    private static readonly TimeSpan ToLift = TimeSpan.FromHours(2);

    /// <summary>Decides what turned.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="happened">What happened so far.</param>
    /// <param name="first">Where in it this instant begins.</param>
    public static IEnumerable<ShopEvent> Decide(Shop shop, IReadOnlyList<ShopEvent> happened, int first)
    {
        SortedSet<string>? touched = null;
        List<string>? anew = null;
        for (int i = first; i < happened.Count; i++)
        {
            if (TouchedBy(shop, happened[i]) is { } jobs)
            {
                (touched ??= new SortedSet<string>(StringComparer.Ordinal)).UnionWith(jobs);
            }

            if (happened[i] is ShopEvent.TapTakenDown { Job: var job, Tap: { Did: not Did.Told, At: var at } } && at <= shop.Jobs[job].Promise.For)
            {
                (anew ??= []).Add(job);
            }
        }

        return touched is null && !(shop.DueJobs.NextAt <= shop.Now) ? [] : Look(shop, touched ?? new SortedSet<string>(StringComparer.Ordinal), anew ?? []);
    }

    private static IEnumerable<ShopEvent> Look(Shop shop, SortedSet<string> touched, List<string> anew)
    {
        touched.UnionWith(shop.DueJobs.DueBy(shop.Now).Where(j => shop.Jobs[j].Promise.LookAt <= shop.Now));
        return touched.Select(j => shop.Jobs[j]).Where(j => j.LeftAt is null).SelectMany(j => Look(shop, j, anew.Contains(j.Job.Id)));
    }

    private static IEnumerable<string>? TouchedBy(Shop shop, ShopEvent happened) => happened switch
    {
        ShopEvent.TapTakenDown e => [e.Job],
        ShopEvent.SurfaceOverheated e => [e.Job],
        ShopEvent.WarningCleared { Subject: { Kind: WarningKind.ProbeSilent, Bay: { } bay } } => shop.Bays[bay].Jobs,
        ShopEvent.CondensationBegan or ShopEvent.CondensationEnded or ShopEvent.CondensationWithdrawn or ShopEvent.PlanReplaced => shop.Jobs.Keys,
        _ => null,
    };

    private static IEnumerable<ShopEvent> Look(Shop shop, JobState job, bool isJudgedAnew)
    {
        var subject = new Subject(WarningKind.PromiseAtRisk) { Job = job.Job.Id };
        bool stands = shop.Standing.ContainsKey(subject);
        if (PromiseReport.PromisedAt(job) is not { } promised || !job.Stories.Any(s => s.Living.Any()))
        {
            if (job.Promise != PromiseWatch.None)
            {
                yield return new ShopEvent.PromiseWatched(job.Job.Id, PromiseWatch.None);
            }

            if (stands)
            {
                yield return new ShopEvent.WarningCleared(subject, shop.Now);
            }

            yield break;
        }

        PromiseScene scene = PromiseScene.Of(shop, new Present(shop, shop.Now), job);
        PromiseOutlook outlook = scene.Outlook(JobReport.RulingOn(shop, job).Holds, promised, isJudgedAnew);
        PromiseWatch before = job.Promise.For == promised ? job.Promise : PromiseWatch.None with
        {
            For = promised,
            Foreseen = new PromiseWords(shop.Plan.Hours, shop.Now).TimeToTell(outlook.CollectFrom),
        };
        PromiseWatch after = Watched(shop, job, scene, outlook, before);
        yield return new ShopEvent.PromiseWatched(job.Job.Id, after);
        if (after.Alarm.IsTold && !stands)
        {
            yield return new ShopEvent.WarningRaised(new Warning(subject, outlook.Governing?.Surface.Id, shop.Now, null, promised > shop.Now ? promised - shop.Now : TimeSpan.Zero)
            {
                Detail = Words(after.Move!),
            });
        }
        else if (after.Alarm.IsTold && stands && Words(after.Move!) is var now && shop.Warnings[shop.Standing[subject]] is var told && !now.Equals(told.Detail))
        {
            yield return new ShopEvent.WarningReworded(told with { Detail = now });
        }
        else if (!after.Alarm.IsTold && stands)
        {
            yield return new ShopEvent.WarningCleared(subject, shop.Now);
        }

        Sentence Words(PromiseMove move)
        {
            var words = new PromiseWords(shop.Plan.Hours, shop.Now);
            return outlook.Standing == PromiseStanding.Missed ? $"Missed at {words.Clock(promised)}. {words.Of(move)}" : words.Of(move);
        }
    }

    private static PromiseWatch Watched(Shop shop, JobState job, PromiseScene scene, PromiseOutlook outlook, PromiseWatch before)
    {
        AlarmRule rule = AlarmRule.Of(WarningKind.PromiseAtRisk);
        double chance = (outlook.ReadyBy - shop.Now <= ToLift ? outlook.Chance : outlook.ChanceOnceLifted) ?? 0;
        Alarm alarm = before.Alarm.Look(shop.Now, RiskBelow - chance, rule);
        PromiseBasis? basis = outlook.Governing is { } governing ? scene.BasisOf(governing, outlook.CollectFrom) : null;
        bool isSafe = alarm is Alarm.Normal && chance >= RiskBelow;
        var words = new PromiseWords(shop.Plan.Hours, shop.Now);
        DateTimeOffset? tell = words.TimeToTell(outlook.CollectFrom);
        DateTimeOffset? soonerSince = isSafe && outlook.ForPeople.IsEmpty && tell is { } time && time <= outlook.PromisedAt - Sooner && time <= before.Foreseen - Sooner ? before.SoonerSince ?? shop.Now : null;
        DateTimeOffset? later = outlook.ForPeople.IsEmpty || tell > outlook.PromisedAt ? tell : null; // nobody is called for sooner while a person holds the car
        PromiseMove? move = alarm.IsTold ? Later()
            : outlook.Standing == PromiseStanding.Kept ? null
            : shop.Now - soonerSince >= SoonerFor ? Earlier()
            : null;
        return before with
        {
            Alarm = alarm,
            Basis = isSafe ? basis : before.Basis,
            Move = move,
            CameTo = outlook.Standing == PromiseStanding.Ahead ? null : outlook.Standing,
            SoonerSince = soonerSince,
            LookAt = NextAfter(shop, job, outlook, alarm, isSettled: isSafe && outlook.Governing is null or { Waits: Awaits.Nothing }, rule),
        };

        PromiseMove Later() => before.Move is { } told && Apart(told.Tell, later) < WorthTelling && !(told.Tell <= shop.Now)
            ? told with { GetsItBack = GetsItBack() }
            : new PromiseMove(
                later,
                outlook.PromisedAt!.Value,
                shop.Now,
                chance,
                basis is null ? $"nothing is on the car that could be ready." : PromiseReason.Of(before.Basis, basis, [.. outlook.ForPeople.Select(h => (Sentence)$"{Surface.NameOf(h.Surface)}: {h.Text}")], words.Clock, isDryInTime: outlook.ReadyAt?.Latest <= outlook.PromisedAt),
                GetsItBack());

        Sentence? GetsItBack() => outlook.ForPeople.IsEmpty && outlook.PromisedAt > shop.Now
            ? PromiseAdvice.Of(shop, job, outlook.PromisedAt.Value, RiskBelow + rule.Deadband).Text
            : null;

        PromiseMove Earlier() => before.Move is { } told && Apart(told.Tell, tell) < WorthTelling
            ? told
            : new PromiseMove(tell, outlook.PromisedAt!.Value, shop.Now, chance, $"it cures sooner than was told.", null);
    }

    private static TimeSpan Apart(DateTimeOffset? a, DateTimeOffset? b) => a is { } one && b is { } other ? (one - other).Duration()
        : a == b ? TimeSpan.Zero
        : TimeSpan.MaxValue;

    private static DateTimeOffset? NextAfter(Shop shop, JobState job, PromiseOutlook outlook, Alarm alarm, bool isSettled, AlarmRule rule)
    {
        bool isAhead = outlook.Standing == PromiseStanding.Ahead, isKept = outlook.Standing == PromiseStanding.Kept;
        if (alarm is Alarm.Normal && (isKept || (isSettled && !(isAhead && outlook.ReadyAt?.Latest > outlook.ReadyBy))))
        {
            return isAhead ? outlook.PromisedAt : null; // what came of it is looked at once, when its time has come
        }

        DateTimeOffset now = shop.Now;
        TimeSpan part = (outlook.ReadyBy ?? now) - now is var left && left > TimeSpan.Zero ? left / Parts : Longest, unheard = Shorter((now - HeardAt(shop, job)) / Parts, Unheard);
        TimeSpan usual = part < Shortest ? Shortest : part > Longest ? Longest : part;
        TimeSpan atRisk = !isAhead ? Longest : usual < AtRisk ? usual : AtRisk;
        DateTimeOffset next = alarm switch
        {
            Alarm.Normal => now + Longer(usual, unheard),
            Alarm.Raised => now + Longer(atRisk, unheard),
            _ => alarm.DueAt(rule) is { } due && due > now && due < now + Shortest ? due : now + Shortest,
        };
        return outlook.PromisedAt is { } promised && promised > now && promised < next ? promised : next; // then it is kept, or missed
    }

    /// <summary>When somebody told something of a car, or a probe where it is was heard, last: since then nothing came that could change anything but time itself.</summary>
    private static DateTimeOffset HeardAt(Shop shop, JobState job) => PromiseReport.BaysOf(shop, job)
        .SelectMany(b => b.Logs.Select(l => l.HeardAt)).Concat(job.Told.Select(t => t.ReportedAt)).Append(job.OpenedAt).Max();

    private static TimeSpan Longer(TimeSpan a, TimeSpan b) => a > b ? a : b;

    private static TimeSpan Shorter(TimeSpan a, TimeSpan b) => a < b ? a : b;
}
