using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>A recorded day, folded: how the job stands at its end, if there is one, and what became of the readings.</summary>
internal sealed record DayReplay(JobReport? Report, ShopPlan Plan, ReadingTally Readings)
{
    /// <summary>Folds a day.</summary>
    /// <returns>The day, or null where a file holds a fault.</returns>
    public static DayReplay? Run(string config, string readings, string job, DateTimeOffset? until, Faults faults)
    {
        Configuration? configuration = Configuration.Read(config, faults);
        JobRecord? record = configuration is null ? null : JobFile.Read(job, configuration, faults);
        if (configuration is null || record is null)
        {
            foreach (ReadingRow _ in ReadingsFile.Read(readings, faults))
            {
                // A fault in one file is no reason to keep quiet about another.
            }

            return null;
        }

        IEnumerable<RawReading> arrivals = Arrivals.Of(ReadingsFile.Read(readings, faults));
        (Shop? shop, JobReport? report) = record.Day is { } day
            ? new RecordedFold(configuration, record, day, new RecordedAmong(day, job, faults)).Run(arrivals, until)
            : Fold(configuration, record, ReadAhead.Of(arrivals), until);
        if (shop is not null && report is null && faults.Count == 0)
        {
            faults.Add(job, $"/{RecordedOfJob.Key}/order", $"{record.Job.Id} begun after {UtcText.Of(shop.Now)}", "an end of the replay after that");
        }

        return faults.Count > 0 || shop is null ? null : new DayReplay(report, configuration.Shop.Plan, shop.Tally);
    }

    private static (Shop? Shop, JobReport? Report) Fold(Configuration configuration, JobRecord record, IEnumerable<RawReading> readings, DateTimeOffset? until)
    {
        var taps = new Queue<Tap>(record.Taps.OrderBy(t => t.ReportedAt));
        Shop? shop = null;
        foreach (RawReading reading in readings)
        {
            if (reading.ReceivedAt > until)
            {
                continue;
            }

            while (taps.TryPeek(out Tap? tap) && tap.ReportedAt < reading.ReceivedAt)
            {
                Take(new Message.Tapped(record.Job.Id, taps.Dequeue()));
            }

            Take(new Message.ReadingCame(reading));
        }

        while (taps.TryDequeue(out Tap? tap) && !(tap.ReportedAt > until))
        {
            Take(new Message.Tapped(record.Job.Id, tap));
        }

        Take(new Message.ClockReached(until ?? shop?.Now ?? DateTimeOffset.UnixEpoch));
        return (shop, shop is null ? null : JobReport.Of(shop, record.Job.Id));

        void Take(Message message)
        {
            shop ??= Opened(configuration, record, message.At);
            shop = ShopFold.Take(shop, message).Shop;
        }
    }

    private static Shop Opened(Configuration configuration, JobRecord record, DateTimeOffset at)
    {
        Shop shop = Shop.Opening(configuration.Shop.Plan, configuration.Catalogue.Sheets, at);
        return ShopFold.Take(shop, new Message.JobStarted(record.Job, at) { Begun = record.Begun }).Shop;
    }
}
