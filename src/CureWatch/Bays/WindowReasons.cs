using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.TimeWindows;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says beside a window which probes were not heard or not believed while it ran, in words.</summary>
/// <remarks>
/// Of the probes that tell the climate of the surface, where it was. For the clock that runs in hours only what lasts still or lasted for half an hour
/// counts. What follows closely on itself is one, and of many the longest are told.
/// </remarks>
internal static class WindowReasons
{
    /// <summary>How many are told beside one window. Source (choice): what somebody reads.</summary>
    private const int Most = 4;

    /// <summary>What is closer than this to the one before is one with it. Source (choice).</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromMinutes(15);

    /// <summary>The windows of a coat, each with its reasons.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="stays">Where its surface was.</param>
    /// <param name="coat">The coat.</param>
    /// <param name="windows">Its windows.</param>
    /// <returns>The windows.</returns>
    public static ImmutableArray<Window> Beside(Shop shop, ImmutableArray<Stay> stays, Coat coat, ImmutableArray<Window> windows)
    {
        ImmutableArray<WindowReason> all = [.. stays.SelectMany(s => During(shop, s))];
        return all.IsEmpty ? windows : [.. windows.Select(w => w with { Because = Of(shop, all, coat, w) })];
    }

    private static ImmutableArray<WindowReason> Of(Shop shop, ImmutableArray<WindowReason> all, Coat coat, Window window)
    {
        bool runsInMinutes = window.Stage is WindowStage.Flash or WindowStage.LevelOff;
        DateTimeOffset? end = window.ClosesAt is { } closes ? closes.Latest : window.OpensAt.Latest;
        DateTimeOffset to = end < shop.Now ? end.Value : shop.Now;
        IEnumerable<WindowReason> felt = all.Where(r => r.From < to && !(r.To <= coat.StartedAt)
            && (runsInMinutes || r.To is null || r.Kind == WindowReasonKind.Stuck || (r.To ?? shop.Now) - r.From > Source.CureLimit));
        return
        [
            .. Merged(felt).OrderByDescending(r => (r.To ?? shop.Now) - r.From).Take(Most).OrderBy(r => r.From).ThenBy(r => r.Probe, StringComparer.Ordinal),
        ];
    }

    private static IEnumerable<WindowReason> During(Shop shop, Stay stay)
    {
        if (stay.Point is not { } point || shop.Bays.Find(point.Bay) is not { } bay)
        {
            return [];
        }

        return
            from index in point.ProbesIn(bay)
            let log = bay.Logs[index]
            from reason in OfProbe(shop, bay, log).Concat(OfTwins(shop, bay, index))
            where !(reason.From >= stay.To) && !(reason.To <= stay.From)
            select reason;
    }

    private static IEnumerable<WindowReason> OfProbe(Shop shop, BayState bay, ProbeLog log)
    {
        foreach (Lapse lapse in Lapses.Of(log, shop.Now))
        {
            WindowReasonKind kind = lapse.Why is { } why && (Refusal.TellsOfTheProbe(why) || Refusal.IsForItsInstant(why)) ? WindowReasonKind.Disbelieved : WindowReasonKind.Unheard;
            yield return Reason(shop, log, kind, lapse.From, lapse.To, kind == WindowReasonKind.Unheard
                ? ((Sentence)$"was not heard", Meanwhile(shop, bay, log, lapse))
                : ($"was not believed", BeliefWords.Of(lapse.Why!.Value)));
        }

        bool areBothOpen = log.Standing.Open(Quantity.Temperature) is not null && log.Standing.Open(Quantity.Humidity) is not null;
        foreach (Still still in log.Standing.Stills)
        {
            Sentence what = areBothOpen && still.To is null ? (Sentence)$"temperature and one humidity" : still.What == Quantity.Humidity ? (Sentence)$"humidity" : $"temperature";
            yield return Reason(shop, log, WindowReasonKind.Stuck, still.From.At, still.To?.At, ($"repeated one {what}", BeliefWords.Of(still)));
        }
    }

    /// <summary>A panel is waited for as long as its next reading may still tell of all since its last; then, in air that is heard, it is not just anywhere.</summary>
    private static Sentence Meanwhile(Shop shop, BayState bay, ProbeLog log, Lapse lapse) =>
        lapse.To is not null || log.Probe.Measures != Measures.Panel || !bay.Logs.Any(l => l.Air.Count > 0 && !Source.IsGapForCure(shop.Now - l.Air.Last.At, l.Probe.Every))
            ? (Sentence)$"only what can have been at worst counts meanwhile"
            : Source.IsGapForCure(shop.Now - lapse.From, log.Probe.Every)
                ? (Sentence)$"nobody waits for it any more, and the coldest that its panel may be in this air counts"
                : $"until half an hour is over it is waited for, and no cure since then counts for sure";

    private static WindowReason Reason(Shop shop, ProbeLog log, WindowReasonKind kind, DateTimeOffset from, DateTimeOffset? to, (Sentence, Sentence) words) =>
        new(kind, log.Probe.Id, from, to, Words(shop, log, from, to, words)) { Ends = to is null ? WaysOut.Of(kind, log) : null };

    /// <summary>Where it disagreed with a twin and was followed all the same: since what people were told of began.</summary>
    private static IEnumerable<WindowReason> OfTwins(Shop shop, BayState bay, int index)
    {
        ProbeLog log = bay.Logs[index];
        Subject subject = ProbeBelief.Subject(WarningKind.ProbeDisagreeing, bay, index);
        string[] twins = [.. ProbeTwins.Of(bay.Plan, index).Where(i => i != index).Select(i => bay.Plan.Probes[i].Probe.Id)];
        foreach (Warning told in shop.Warnings.Values.Where(w => w.Subject == subject))
        {
            DateTimeOffset from = told.RaisedAt - AlarmRule.Of(subject.Kind).OnDelay;
            if (!Lapses.Of(log, shop.Now).Any(l => l.Why == Disbelief.Disagreeing && l.From < (told.ClearedAt ?? shop.Now) && !(l.To <= from)))
            {
                yield return Reason(
                    shop, log, WindowReasonKind.Disagreeing, from, told.ClearedAt, ($"disagreed with {Sentence.Names(" and ", twins)}", $"nobody can say which is right, so the worse of them counts"));
            }
        }
    }

    private static IEnumerable<WindowReason> Merged(IEnumerable<WindowReason> reasons)
    {
        WindowReason? last = null;
        foreach (WindowReason reason in reasons.OrderBy(r => r.Probe, StringComparer.Ordinal).ThenBy(r => r.Kind).ThenBy(r => r.From))
        {
            if (last is not null && last.Probe == reason.Probe && last.Kind == reason.Kind && (last.To is null || reason.From - last.To <= Pause))
            {
                last = last.To is null || reason.To <= last.To ? last : last with { To = reason.To, Text = reason.Text };
                continue;
            }

            if (last is not null)
            {
                yield return last;
            }

            last = reason;
        }

        if (last is not null)
        {
            yield return last;
        }
    }

    private static Sentence Words(Shop shop, ProbeLog log, DateTimeOffset from, DateTimeOffset? to, (Sentence Did, Sentence So) words)
    {
        Sentence probe = log.Probe.Measures == Measures.Panel ? (Sentence)$"Panel probe" : $"Air probe";
        TimeZoneInfo zone = shop.Plan.Hours.Zone;
        Sentence time = to is { } until ? (Sentence)$"from {At(from, until, zone)} to {At(until, from, zone)}" : $"since {At(from, shop.Now, zone)}";
        return $"{probe} {log.Probe.Id} {words.Did} {time}: {words.So}.";
    }

    private static Sentence At(DateTimeOffset at, DateTimeOffset other, TimeZoneInfo zone)
    {
        DateTimeOffset here = TimeZoneInfo.ConvertTime(at, zone), there = TimeZoneInfo.ConvertTime(other, zone);
        return Sentence.Of(new Figure.Clock(here.DateTime, here.Date == there.Date ? "HH:mm" : "d MMM HH:mm"));
    }
}
