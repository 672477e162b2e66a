using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Takes a message in: believes a reading or not, opens a job, takes a tap down.</summary>
public static class Intake
{
    /// <summary>Decides what a message means.</summary>
    /// <param name="shop">The shop, its present at the message.</param>
    /// <param name="message">The message.</param>
    /// <returns>What happened; nothing for a tap told twice, a job opened twice, or a job nobody opened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, Message message) =>
        message is Message.ReadingCame m ? [Judge(shop, m.Raw)] : DecideRarely(shop, message);

    private static IEnumerable<ShopEvent> DecideRarely(Shop shop, Message message)
    {
        switch (message)
        {
            case Message.JobStarted m when shop.Find(m.Job.Id) is null:
                yield return new ShopEvent.JobOpened(m.Job) { Begun = m.Begun };
                break;
            case Message.Tapped m when shop.Find(m.Job) is { } job && !IsRepeated(job, m.Tap):
                yield return new ShopEvent.TapTakenDown(m.Job, m.Tap);
                break;
            case Message.CarLeft m when shop.Find(m.Job) is { LeftAt: null }:
                yield return new ShopEvent.CarHandedOver(m.Job, shop.Now);
                foreach (ShopEvent released in LetGo(shop, m.Job))
                {
                    yield return released;
                }

                break;
            case Message.PlanChanged m:
                yield return new ShopEvent.PlanReplaced(m.Plan);
                foreach (ShopEvent forgotten in ForgetProbes(shop, m.Plan))
                {
                    yield return forgotten;
                }

                break;
            case Message.SheetAdded m when !shop.Laws.ContainsKey((m.Sheet.Product, m.Sheet.Revision)):
                yield return new ShopEvent.SheetTakenIn(m.Sheet);
                break;
            case Message.LearningReset m:
                yield return new ShopEvent.LearningReset(m.Product, m.Bay, shop.Now);
                break;
            case Message.WorkPlanned m:
                yield return new ShopEvent.WorkPlanned(m.Work);
                break;
            case Message.WorkDropped m when shop.Planned.Any(w => w.Id == m.Id):
                yield return new ShopEvent.WorkDropped(m.Id);
                break;
            case Message.VisitPlanned m when shop.Find(m.Job) is { LeftAt: null }:
                yield return new ShopEvent.VisitPlanned(m.Job, m.Visit);
                break;
            case Message.VisitCancelled m when shop.Find(m.Job) is { } job && job.IsExpectedAt(shop.Now):
                foreach (ShopEvent released in LetGo(shop, m.Job))
                {
                    yield return released;
                }

                yield return new ShopEvent.JobClosed(JobReport.Of(shop, m.Job));
                break;
            case Message.MessagesRefused m:
                yield return new ShopEvent.RefusalsCounted(m.Counts);
                break;
        }
    }

    private static ShopEvent Judge(Shop shop, RawReading raw)
    {
        if (shop.Bays.Find(raw.Bay) is not { } bay || bay.IndexOf(raw.Probe) is not (>= 0 and var index))
        {
            return new ShopEvent.ReadingDoubted(raw, Disbelief.UnknownProbe);
        }

        ProbeLog log = bay.Logs[index];
        return log.Doubt(raw) is { } why
            ? why == Disbelief.Frozen && (log.Standing.IsHalfStuckAt(raw) || log.Standing.IsStillIn(log.Probe.Measures))
                ? new ShopEvent.ReadingDoubted(raw, why, LampGlow.Over(shop, bay, index, raw)) { IsFollowed = true }
                : new ShopEvent.ReadingDoubted(raw, why)
            : LampGlow.Over(shop, bay, index, raw) is { } held ? new ShopEvent.ReadingDoubted(raw, Disbelief.LampNear, held)
            : new ShopEvent.ReadingBelieved(raw);
    }

    /// <summary>Nobody watches the coats of a car that left, or warns about them.</summary>
    private static IEnumerable<ShopEvent> LetGo(Shop shop, string job) =>
        shop.Jobs[job].Watched
            .Select(w => (ShopEvent)new ShopEvent.CoatForeseen(w.Key, null, FollowedFrom: null))
            .Concat(Clear(shop, s => s.Job == job));

    /// <summary>Nobody waits for a probe that is there no more, and no air that nobody measures any more could ever be told to be well again.</summary>
    private static IEnumerable<ShopEvent> ForgetProbes(Shop shop, ShopPlan plan)
    {
        HashSet<(string, string)> probes = [.. plan.Bays.SelectMany(b => b.Probes.Select(p => (b.Bay, p.Probe.Id)))];
        HashSet<(string, Place)> airs =
        [
            .. from bay in plan.Bays
               from mount in bay.Probes
               where mount.Probe.Measures == Measures.Air
               select (bay.Bay, PlaceAir.Of(mount.Place)),
        ];
        HashSet<string> comparedAnew = [.. plan.Bays.Where(b => shop.Bays.Find(b.Bay)?.MeasuresAs(b) == false).Select(b => b.Bay)];
        bool IsGone(Subject s) => s.Bay is { } bay && ((s.Kind == WarningKind.ProbeDisagreeing && comparedAnew.Contains(bay)) || (s.Probe is { } probe ? !probes.Contains((bay, probe)) : s.Air is { } air && !airs.Contains((bay, air))));
        return shop.Bays.Values.SelectMany(b => b.Alarms.Keys).Where(IsGone).Order(SubjectOrder.Instance)
            .Select(s => (ShopEvent)new ShopEvent.AlarmMoved(s, new Alarm.Normal()))
            .Concat(Clear(shop, IsGone));
    }

    private static IEnumerable<ShopEvent> Clear(Shop shop, Func<Subject, bool> which) =>
        shop.Standing.Keys.Where(which).Order(SubjectOrder.Instance).Select(s => new ShopEvent.WarningCleared(s, shop.Now));

    private static bool IsRepeated(JobState job, Tap tap) => tap.Id is not null && job.Told.Any(t => t.Id == tap.Id);
}
