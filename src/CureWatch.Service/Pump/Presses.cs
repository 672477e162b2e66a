using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Pump;

/// <summary>Decides which tap a press of the one button is, against the state of this moment.</summary>
internal static class Presses
{
    public static Decision On(Register register, Arrival.Next arrival, DateTimeOffset now)
    {
        if (register.Shop?.Find(arrival.Job) is not { } job)
        {
            return Decision.Nothing(new Answer.NoSuchJob(arrival.Job));
        }

        var faults = new Faults();
        JsonCursor? top = JsonFile.Parse(arrival.Source, arrival.Utf8.Span, faults);
        Press? press = top is null ? null : Press.Read(top, [.. job.Job.Surfaces.Select(s => s.Id)]);
        DateTimeOffset at = press?.At ?? now;
        if (LiveTap.IsAhead(at, now))
        {
            top!["at"].Refuse($"no later than now, {UtcText.Of(now)}");
        }

        if (press is null || faults.Count > 0)
        {
            return Decision.Nothing(new Answer.Refused([.. faults.All]));
        }

        if (job.Told.Any(t => t.Id == press.Id))
        {
            return Decision.Nothing(new Answer.Repeated(job.Job.Id));
        }

        Shop present = ShopFold.Take(register.Shop, new Message.ClockReached(now)).Shop;
        return Choose(register, present, present.Find(arrival.Job) ?? job, press, at < now ? at : now, now);
    }

    private static Decision Choose(Register register, Shop shop, JobState job, Press press, DateTimeOffset at, DateTimeOffset now)
    {
        ImmutableArray<NextAct> acts = NextActs.Of(shop, job, at, press.Surface);
        var words = new ActWords(shop.Plan.Hours.Zone, at);
        if (acts.IsEmpty)
        {
            return Unfit(job.LeftAt is null ? (Sentence)$"Nothing is left to do but to wait." : $"The car has left.");
        }

        NextAct next = acts[0];
        if (press.Act is not null || press.Layer is not null || press.Section is not null)
        {
            if (acts.Select(a => AsSaid(a, press)).FirstOrDefault(a => a.IsSeenAs(press.Act, press.Layer, press.Section)) is not { } seen)
            {
                return Unfit($"That is not to be done now; next is {words.Of(next)}. Look again, or tell what you did as a tap.");
            }

            next = seen;
        }
        else if (job.Told.Length > 0 && NextActs.Of(shop, job, job.Told[^1].ReportedAt, press.Surface).FirstOrDefault() is { } sentTo && !next.IsSameAs(sentTo))
        {
            return Unfit($"Two things may be meant: {words.Of(sentTo)}, or by now {words.Of(next)}. Say which with 'act', 'layer' and 'section'.");
        }

        if (!next.CanBeTold(at))
        {
            return Unfit($"Not by one press: {words.Of(next)}. If it was done all the same, tell it as a tap.");
        }

        Tap tap = next.ToldAs(press.Id, at, now, press.StartedAt is { } started && started < at ? started : null, press.By);
        return new Decision(new Answer.Stored(job.Job.Id), [new Entry.Tapped(job.Job.Id, Batches.Filled(register, job, tap))]);
    }

    /// <summary>Who levelled too late without wetting it again says so: it stays a missed levelling.</summary>
    private static NextAct AsSaid(NextAct act, Press press) => act.Kind == ActKind.ReWet && press.Act == ActKind.Level ? act with { Kind = ActKind.Level } : act;

    private static Decision Unfit(Sentence why) => Decision.Nothing(new Answer.Unfit(why));
}
