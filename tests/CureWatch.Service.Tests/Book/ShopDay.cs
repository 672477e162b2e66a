using CureWatch.Curing;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Pump;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Book;

/// <summary>The shipped example day as commits, a minute each, from the settings to the handover.</summary>
internal sealed class ShopDay : IJournalSteps
{
    private static readonly Lazy<ShopDay> Once = new(() => new ShopDay());

    private readonly List<Step> _steps = [];

    private ShopDay()
    {
        var faults = new Faults();
        Configuration configuration = Configuration.Read(Shipped.Folder, faults)!;
        JobRecord record = JobFile.Read(Path.Combine(Shipped.Folder, "example", "job.json"), configuration, faults)!;
        List<ReadingRow> rows = [.. ReadingsFile.Read(Path.Combine(Shipped.Folder, "example", "readings.csv"), faults)];
        Assert.Empty(faults.All);
        JobId = record.Job.Id;
        var folded = new Folded();
        List<Commit> commits = [folded.Take(rows[0].Time, [.. Settings(configuration), new Entry.JobStarted(record.Job, [])])];
        var taps = new Queue<Tap>(record.Taps.OrderBy(t => t.ReportedAt));
        foreach (IGrouping<long, ReadingRow> minute in rows.GroupBy(r => (r.ReceivedAt ?? r.Time).Ticks / TimeSpan.TicksPerMinute))
        {
            DateTimeOffset at = minute.Max(r => r.ReceivedAt ?? r.Time);
            while (taps.TryPeek(out Tap? tap) && tap.ReportedAt <= at)
            {
                commits.Add(folded.Take(tap.ReportedAt, new Entry.Tapped(JobId, taps.Dequeue())));
            }

            commits.Add(folded.Take(at, minute.Select(r => new Entry.Reading(r.Bay, r.Probe, r.Time, r.AirC, r.HumidityPct, r.PanelC))));
        }

        commits.Add(folded.Take(rows[^1].Time.AddMinutes(5), new Entry.HandedOver(JobId, "SOMEBODY", "SOMETHING HELD IT")));
        commits.Add(folded.Take(rows[^1].Time.AddMinutes(6), new Entry.ClockReached()));
        Commits = commits;
        _steps.AddRange(folded.Steps);
    }

    public static ShopDay Example => Once.Value;

    public string JobId { get; }

    public IReadOnlyList<Commit> Commits { get; }

    public IReadOnlyList<Step> Steps => _steps;

    public Register Register => Commits[^1].After;

    /// <summary>The believed readings of a probe, in the order they were measured.</summary>
    public IReadOnlyList<RawReading> Believed(string bay, string probe) =>
    [
        .. from step in _steps
           from e in step.Happened.OfType<Bays.ShopEvent.ReadingBelieved>()
           where e.Raw.Bay == bay && e.Raw.Probe == probe
           orderby e.Raw.MeasuredAt
           select e.Raw,
    ];

    public IEnumerable<Step> After(long sequence) => _steps.Where(s => s.Sequence > sequence);

    private static IEnumerable<Entry> Settings(Configuration configuration) =>
    [
        Folded.Shop(File.ReadAllText(Path.Combine(Shipped.Folder, "shop.json"))),
        .. from sheet in configuration.Catalogue.Sheets
           let file = Path.Combine(Shipped.Folder, "products", $"{sheet.Product}-r{sheet.Revision}.json")
           select Folded.Sheet(sheet.Product, sheet.Revision, File.ReadAllText(file)),
    ];
}
