using System.Collections.Immutable;
using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Folds the day of an exported job as its shop lived it, other cars and all, each thing after the reading it came after.</summary>
/// <param name="configuration">The shop and its products.</param>
/// <param name="asked">The exported job.</param>
/// <param name="day">Its day.</param>
/// <param name="among">Whether the day fits the readings.</param>
internal sealed class RecordedFold(Configuration configuration, JobRecord asked, LivedDay day, RecordedAmong among)
{
    private readonly JobRecord[] _jobs = [asked, .. day.Beside];
    private readonly Queue<RecordedEvent> _order = new(day.Order);
    private Shop _shop = Shop.Opening(configuration.Shop.Plan, configuration.Catalogue.Sheets, day.OpenedAt);
    private JobReport? _closed;

    /// <returns>
    /// The shop at the end of the day, or where it was to stop, and how the job stood then, or when the shop let go of it; null where it was not begun by then,
    /// or the day does not fit the readings.
    /// </returns>
    public (Shop Shop, JobReport? Report) Run(IEnumerable<RawReading> readings, DateTimeOffset? until)
    {
        int read = 0;
        foreach (RawReading reading in readings)
        {
            if (!among.Fits(reading.ReceivedAt))
            {
                continue; // nothing follows from the rest, but what is wrong with it is told
            }

            TakeUpTo(read++, until);
            if (!(reading.ReceivedAt > until))
            {
                Take(new Message.ReadingCame(reading));
            }
        }

        if (!among.FitsToItsEnd())
        {
            return (_shop, null);
        }

        TakeUpTo(int.MaxValue, until); // also what came after rows that somebody took away
        Take(new Message.ClockReached(until ?? day.EndedAt ?? _shop.Now));
        return (_shop, _shop.Find(asked.Job.Id) is not null ? JobReport.Of(_shop, asked.Job.Id) : _closed);
    }

    private void TakeUpTo(int readings, DateTimeOffset? until)
    {
        while (_order.TryPeek(out RecordedEvent? next) && next.Readings <= readings && !(next.At > until))
        {
            Take(new Message.ClockReached(next.Now));
            Take(MessageOf(_order.Dequeue()));
        }
    }

    private Message MessageOf(RecordedEvent next)
    {
        JobRecord job = _jobs[next.Job];
        return next.Did switch
        {
            Recorded.Begun => new Message.JobStarted(job.Job, next.At) { Begun = job.Begun },
            Recorded.Told => new Message.Tapped(job.Job.Id, job.Taps[next.Tap!.Value]),
            Recorded.Left => new Message.CarLeft(job.Job.Id, next.At),
            Recorded.Planned => new Message.WorkPlanned(day.Works[next.Plan!.Value], next.At),
            Recorded.Dropped => new Message.WorkDropped(day.Works[next.Plan!.Value].Id, next.At),
            Recorded.Visited => new Message.VisitPlanned(job.Job.Id, day.Visits[next.Plan!.Value], next.At),
            Recorded.Cancelled => new Message.VisitCancelled(job.Job.Id, next.At),
            _ => throw new UnreachableException(next.Did.ToString()),
        };
    }

    private void Take(Message message)
    {
        (_shop, ImmutableArray<ShopEvent> happened) = ShopFold.Take(_shop, message);
        _closed = happened.OfType<ShopEvent.JobClosed>().Select(e => e.Last).FirstOrDefault(l => l.Job.Id == asked.Job.Id) ?? _closed;
    }
}
