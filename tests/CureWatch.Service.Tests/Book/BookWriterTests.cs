using CureWatch.Readings;
using CureWatch.Service.Book;
using CureWatch.Service.Documents;
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
        Step left = Day.Steps.Single(s => s.Entry is Entry.HandedOver);
        Assert.Equal(new BookedDeparture(left.Sequence, Day.Register.Jobs[Day.JobId].HandedOver!.Value.At, true), job.Left);
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
            expected, json => ReplayJson.Write(json, Bays.JobReport.Of(shop, Day.JobId), shop.Tally));

        Assert.Equal(expected.ToString(), Book.HandoverRecord(Day.JobId));
        Assert.Null(Book.HandoverRecord("nobody"));
    }

    [Fact]
    public void PastWarnings_OfAStretch_AreThoseThatStoodInIt_TheNewestFirst()
    {
        List<BookedWarning> all = [.. Day.Register.Shop!.Warnings.Select(w => new BookedWarning(w.Key, w.Value)).Reverse()];
        Assert.Contains(all, w => w.Warning.ClearedAt is null);
        List<BookedWarning> past = [.. all.Where(w => w.Warning.ClearedAt is not null)];
        Assert.Equal(past.Select(InMilliseconds), Book.PastWarnings(DateTimeOffset.MinValue, DateTimeOffset.MaxValue, null, 1000));
        Assert.Empty(Book.PastWarnings(DateTimeOffset.MinValue, Day.Steps[0].At.AddSeconds(-1), null, 1000));
        foreach (BookedWarning warning in past)
        {
            DateTimeOffset from = warning.Warning.RaisedAt.AddMinutes(-5), to = warning.Warning.RaisedAt.AddMinutes(5);
            Assert.Equal(
                past.Where(w => w.Warning.RaisedAt <= to && w.Warning.ClearedAt >= from).Select(w => w.Number),
                Book.PastWarnings(from, to, null, 1000).Select(w => w.Number));
        }
    }

    [Fact]
    public void PastWarnings_PageByPage_AreAll()
    {
        var pages = new List<int>();
        for (int? before = null; Book.PastWarnings(DateTimeOffset.MinValue, DateTimeOffset.MaxValue, before, 3) is { Count: > 0 } page; before = page[^1].Number)
        {
            Assert.InRange(page.Count, 1, 3);
            pages.AddRange(page.Select(w => w.Number));
        }

        Assert.Equal(Day.Register.Shop!.Warnings.Where(w => w.Value.ClearedAt is not null).Select(w => w.Key).Reverse(), pages);
    }

    [Theory]
    [InlineData("bay-1", "air")]
    [InlineData("bay-1", "bonnet")]
    [InlineData("bay-1", "yard")]
    [InlineData("bay-2", "air")]
    public void Readings_AreTheBelievedOnesOfTheStretch(string bay, string probe)
    {
        IReadOnlyList<RawReading> believed = Day.Believed(bay, probe);
        Assert.NotEmpty(believed);
        AssertReadings(DateTimeOffset.MinValue, DateTimeOffset.MaxValue);
        DateTimeOffset start = believed[0].MeasuredAt;
        for (int hour = -1; hour < 32; hour++)
        {
            AssertReadings(start.AddHours(hour), start.AddHours(hour + 3));
        }

        void AssertReadings(DateTimeOffset from, DateTimeOffset to) => Assert.Equal(
            believed.Where(r => r.MeasuredAt >= from && r.MeasuredAt <= to)
                .Select(r => new BookedReading(r.MeasuredAt, (r.AirC ?? r.PanelC)!.Value, r.HumidityPct)),
            Book.ReadingsOf(bay, probe, from, to, int.MaxValue));
    }

    [Fact]
    public void Readings_OfAProbeNobodyHas_AreNone() =>
        Assert.Empty(Book.ReadingsOf("bay-1", "ai", DateTimeOffset.MinValue, DateTimeOffset.MaxValue, int.MaxValue));

    [Theory]
    [InlineData(1)]
    [InlineData(100)]
    [InlineData(1000)]
    public void Readings_OfAPage_AreTheFirstOnes(int most)
    {
        IReadOnlyList<RawReading> believed = Day.Believed("bay-1", "air");
        for (int first = 0; first < believed.Count; first += 97)
        {
            Assert.Equal(
                believed.Skip(first).Take(most).Select(r => r.MeasuredAt),
                Book.ReadingsOf("bay-1", "air", believed[first].MeasuredAt, DateTimeOffset.MaxValue, most).Select(r => r.At));
        }
    }

    [Fact]
    public void Probe_WasHeard_WhereItToldAnything() => Assert.Equal([true, false], new[] { "air", "ai" }.Select(p => Book.HasHeard("bay-1", p)));

    [Fact]
    public void Position_IsTheLastEntry() =>
        Assert.Equal((Day.Steps[^1].Sequence, Day.Steps[^1].At), (Book.Position.Sequence, Book.Position.At));

    [Fact]
    public void CarsThatLeft_ComeNewestFirst_PageByPage()
    {
        BookFile file = Books.New(_written.Folder);
        using var other = new OpenBook(file);
        DateTimeOffset at = DateTimeOffset.UnixEpoch;
        file.Write(() => Enumerable.Range(0, 8).ToList().ForEach(i => file.Jobs.Upsert(StoredJob.Of(new BookedJob(
            80 - (i * 10), $"job-{i}", "b", at, null, i == 0 ? null : new BookedDeparture(100 + i, at, WasHeld: false), [])))));

        IReadOnlyList<BookedJob> first = other.Queries.Left(null, 3), second = other.Queries.Left(first[^1].Left!.Number, 3);

        Assert.Equal(["job-7", "job-6", "job-5"], first.Select(j => j.Id));
        Assert.Equal(["job-4", "job-3", "job-2"], second.Select(j => j.Id));
        Assert.Equal(["job-1"], other.Queries.Left(second[^1].Left!.Number, 3).Select(j => j.Id));
        Assert.Empty(other.Queries.Left(101, 3));
    }

    private static BookedWarning InMilliseconds(BookedWarning warning) => StoredWarning.Of(warning).Read();
}
