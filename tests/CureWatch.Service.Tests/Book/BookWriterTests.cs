using CureWatch.Readings;
using CureWatch.Service.Book;
using CureWatch.Service.Commands;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Book;

/// <summary>The example day, written down and looked up.</summary>
public sealed class BookWriterTests : IDisposable
{
    private static readonly ShopDay Day = ShopDay.Example;

    private readonly Written _written = new();
    private readonly Lazy<OpenBook> _book;

    public BookWriterTests() => _book = new Lazy<OpenBook>(() =>
    {
        var book = new OpenBook(Books.New(_written.Folder));
        book.Take(Day.Steps);
        return book;
    });

    private BookQueries Book => _book.Value.Queries;

    public void Dispose()
    {
        if (_book.IsValueCreated)
        {
            _book.Value.Dispose();
        }

        _written.Dispose();
    }

    [Fact]
    public void Job_IsThereWithItsSurfacesAndItsEnd()
    {
        BookedJob job = Book.Job(Day.JobId)!;

        Bays.Job told = Day.Register.Shop!.Find(Day.JobId)!.Job;
        Assert.Equal((told.Id, told.Bay, told.PromisedAt), (job.Id, job.Bay, job.PromisedAt));
        Assert.Equal(told.Surfaces, job.Surfaces);
        Assert.Equal(Day.Steps[0].At, job.StartedAt);
        Assert.Equal((Day.Register.Jobs[Day.JobId].HandedOver!.Value.At, true), job.HandedOver);
        Assert.Null(Book.Job("nobody"));
    }

    [Fact]
    public void Taps_AreThereInOrderWithoutNames()
    {
        IEnumerable<Curing.Tap> told = Day.Register.Shop!.Find(Day.JobId)!.Told.Select(t => t with { By = null, Note = null });
        Assert.Equal(told, Book.TapsOf(Day.JobId).Select(t => t.Tap));
        Assert.Empty(Book.TapsOf("nobody"));
    }

    [Fact]
    public void Record_IsWhatReplayPrintsAtTheHandover()
    {
        Step left = Day.Steps.Single(s => s.Entry is Entry.HandedOver);
        Bays.Shop shop = left.After.Shop!;
        using var expected = new StringWriter();
        JsonOutput.WriteDocument(
            expected, json => ReplayJson.Write(json, new DayReplay(Bays.JobReport.Of(shop, Day.JobId), shop.Plan, shop.Tally)));

        Assert.Equal(expected.ToString(), Book.HandoverRecord(Day.JobId));
        Assert.Null(Book.HandoverRecord("nobody"));
    }

    [Fact]
    public void Warnings_OfAStretch_AreThoseThatStoodInIt()
    {
        List<BookedWarning> all = [.. Day.Register.Shop!.Warnings.Select((w, i) => new BookedWarning(i, w))];
        Assert.Contains(all, w => w.Warning.ClearedAt is null);
        Assert.Equal(all.Select(InMilliseconds), Book.WarningsBetween(DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue));
        Assert.Empty(Book.WarningsBetween(DateTimeOffset.UnixEpoch, Day.Steps[0].At.AddSeconds(-1)));
        foreach (BookedWarning warning in all)
        {
            DateTimeOffset from = warning.Warning.RaisedAt.AddMinutes(-5), to = warning.Warning.RaisedAt.AddMinutes(5);
            Assert.Equal(
                all.Where(w => w.Warning.RaisedAt <= to && !(w.Warning.ClearedAt < from)).Select(w => w.Number),
                Book.WarningsBetween(from, to).Select(w => w.Number));
        }
    }

    [Fact]
    public void Settings_AreThereWordForWord() => Assert.Equal(
        Day.Register.Settings.Documents.Values.Select(d => (d.Item, d.Document)).OrderBy(d => d.Item),
        Book.Settings().Select(s => (s.Changed.Item, s.Changed.Document)).OrderBy(d => d.Item));

    [Theory]
    [InlineData("bay-1", "air")]
    [InlineData("bay-1", "bonnet")]
    [InlineData("bay-1", "yard")]
    [InlineData("bay-2", "air")]
    public void Readings_AreTheBelievedOnesOfTheStretch(string bay, string probe)
    {
        IReadOnlyList<RawReading> believed = Day.Believed(bay, probe);
        Assert.NotEmpty(believed);
        AssertReadings(DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue.AddDays(-1));
        DateTimeOffset start = believed[0].MeasuredAt;
        for (int hour = -1; hour < 32; hour++)
        {
            AssertReadings(start.AddHours(hour), start.AddHours(hour + 3));
        }

        void AssertReadings(DateTimeOffset from, DateTimeOffset to) => Assert.Equal(
            believed.Where(r => r.MeasuredAt >= from && r.MeasuredAt <= to)
                .Select(r => new BookedReading(r.MeasuredAt, (r.AirC ?? r.PanelC)!.Value, r.HumidityPct)),
            Book.ReadingsOf(bay, probe, from, to));
    }

    [Fact]
    public void Readings_OfAProbeNobodyHas_AreNone() =>
        Assert.Empty(Book.ReadingsOf("bay-1", "ai", DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue.AddDays(-1)));

    [Fact]
    public void Position_IsTheLastEntry() =>
        Assert.Equal((Day.Steps[^1].Sequence, Day.Steps[^1].At), (Book.Position.Sequence, Book.Position.At));

    [Fact]
    public void Jobs_ComeNewestFirst_PageByPage()
    {
        BookFile file = Books.New(_written.Folder);
        using var other = new OpenBook(file);
        file.Write(() => Enumerable.Range(1, 7).ToList().ForEach(i => file.Jobs.Upsert(
            StoredJob.Of(new BookedJob(i * 10, $"job-{i}", "b", DateTimeOffset.UnixEpoch, null, null, [])))));

        IReadOnlyList<BookedJob> first = other.Queries.Jobs(null, 3), second = other.Queries.Jobs(first[^1].Number, 3);

        Assert.Equal(["job-7", "job-6", "job-5"], first.Select(j => j.Id));
        Assert.Equal(["job-4", "job-3", "job-2"], second.Select(j => j.Id));
        Assert.Equal(["job-1"], other.Queries.Jobs(second[^1].Number, 3).Select(j => j.Id));
        Assert.Empty(other.Queries.Jobs(10, 3));
    }

    private static BookedWarning InMilliseconds(BookedWarning warning) => StoredWarning.Of(warning).Read();
}
