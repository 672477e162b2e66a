using CureWatch.Curing;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Takes a message in: believes a reading or not, opens a job, takes a tap down.</summary>
public static class Intake
{
    /// <summary>Decides what a message means.</summary>
    /// <param name="shop">The shop, its present at the message.</param>
    /// <param name="message">The message.</param>
    /// <returns>What happened; nothing for a tap told twice, a job opened twice, or a job nobody opened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, Message message)
    {
        switch (message)
        {
            case Message.ReadingCame m:
                Disbelief? doubt = Doubt(shop, m.Raw);
                yield return doubt is { } why ? new ShopEvent.ReadingDoubted(m.Raw, why) : new ShopEvent.ReadingBelieved(m.Raw);
                break;
            case Message.JobStarted m when shop.Find(m.Job.Id) is null:
                yield return new ShopEvent.JobOpened(m.Job);
                break;
            case Message.Tapped m when shop.Find(m.Job) is { } job && !IsRepeated(job, m.Tap):
                yield return new ShopEvent.TapTakenDown(m.Job, m.Tap);
                break;
        }
    }

    private static Disbelief? Doubt(Shop shop, RawReading raw) =>
        shop.Bays.TryGetValue(raw.Bay, out BayState? bay) && bay.IndexOf(raw.Probe) is >= 0 and var index
            ? bay.Logs[index].Doubt(raw)
            : Disbelief.UnknownProbe;

    private static bool IsRepeated(JobState job, Tap tap) => tap.Id is not null && job.Told.Any(t => t.Id == tap.Id);
}
