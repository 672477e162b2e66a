using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public sealed class JobFileTests : IDisposable
{
    private readonly Written _written = new();
    private readonly Faults _faults = new();
    private readonly Configuration _configuration;

    public JobFileTests()
    {
        _written.File("config/shop.json", ShopVariants.Whole);
        _written.File("config/products/paint-x-r2.json", SheetVariants.Whole);
        _written.File("config/products/paint-x-r11.json", Edited.At(SheetVariants.Whole, "/revision", "11"));
        _configuration = Configuration.Read(Path.Combine(_written.Folder, "config"), _faults)!;
    }

    public static TheoryData<string, string?, string> Broken { get; } = [.. JobVariants.ForBoth, .. JobVariants.ForTheReader];

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Job_IsReadWhole()
    {
        Job job = Read(JobVariants.Whole)!.Job;

        Assert.Empty(_faults.All);
        Assert.Equal(("job-7", "bay-1", "grey estate", At("2026-03-03T16:00:00Z")), (job.Id, job.Bay, job.Car, job.PromisedAt));
        Assert.Equal(
            [
                new Surface("bonnet", Material.Steel, null, Place.Outside, "paint-x", 11, 2, 3),
                new Surface("bumper", Material.Film, Material.Plastic, Place.OffCar, "paint-x", 2, 1, 1),
                new Surface("wing", Material.Aluminium, null, Place.Outside, "paint-x", 2, 3, 1, new NextProduct("paint-x", 11, 3)),
            ],
            job.Surfaces);
    }

    [Fact]
    public void Tap_IsReadWhole_InUtc()
    {
        Tap tap = Read(JobVariants.Whole)!.Taps[0];

        Assert.Equal(
            new Tap(
                "a", At("2026-03-02T11:00:00Z"), At("2026-03-02T11:05:00Z"), "bonnet", Did.Applied, 1, 2, At("2026-03-02T10:50:00Z"),
                By: "Sam", Note: "second\nwipe", Batch: "A-7"),
            tap);
        Assert.Equal(TimeSpan.Zero, tap.At.Offset);
    }

    [Fact]
    public void Taps_KeepTheirOrderAndWhatIsTheirs()
    {
        JobRecord record = Read(JobVariants.Whole)!;

        Assert.Equal(["a", "b", "c", "d", "e", "f", "g", "h"], record.Taps.Select(t => t.Id));
        Assert.Null(record.Taps[2].Surface);
        Assert.Equal(22.5, record.Taps[7].PanelC!.Value, 1e-9); // told as 72.5 °F
        Assert.Equal(
            (19.5, Found.HighSpot, How.ReWet, "store", "b"),
            (record.Taps[2].PanelC, record.Taps[3].Found, record.Taps[4].How, record.Taps[5].ToBay, record.Taps[6].Corrects));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("\"2026-03-02T10:58:00Z\"")]
    public void ReportedAt_AbsentOrALittleBeforeTheAct_IsTheTimeOfTheAct(string? reportedAt)
    {
        Tap tap = Read(Edited.At(JobVariants.Whole, "/taps/0/reportedAt", reportedAt))!.Taps[0];

        Assert.Equal(tap.At, tap.ReportedAt);
    }

    [Fact]
    public void Tap_ToldAgainTheSame_IsKeptOnce()
    {
        const string Again = """{"id":"b","did":"levelled","surface":"bonnet","layer":1,"section":2,"at":"2026-03-02T12:04:00+01:00"}""";

        JobRecord record = Read(Edited.At(JobVariants.Whole, "/taps/-", Again))!;

        Assert.Equal(8, record.Taps.Length);
    }

    [Fact]
    public void Correction_BeforeWhatItCorrects_IsAccepted()
    {
        Assert.NotNull(Read(Edited.At(Edited.At(JobVariants.Whole, "/taps/0/corrects", "\"b\""), "/taps/6/corrects", null)));
        Assert.Empty(_faults.All);
    }

    [Fact]
    public void Taps_AreOptional()
    {
        Assert.Empty(Read(Edited.At(JobVariants.Whole, "/taps", null))!.Taps);
        Assert.Empty(_faults.All);
    }

    [Fact]
    public void Surface_WithAFault_IsStillKnownToTheTaps()
    {
        Assert.Null(Read(Edited.At(JobVariants.Whole, "/surfaces/0/material", "\"wood\"")));
        Assert.Equal("/surfaces/0/material", Assert.Single(_faults.All).Place);
    }

    [Theory]
    [MemberData(nameof(Broken))]
    public void Job_WithOnePlaceBroken_IsRefusedThere(string changed, string? json, string place)
    {
        Assert.Null(Read(Edited.At(JobVariants.Whole, changed, json)));
        Assert.Contains(place, _faults.All.Select(f => f.Place));
    }

    [Fact]
    public void Job_OfMoreCoatsThanAnyCarHas_IsRefused()
    {
        string layers = Edited.At(JobVariants.Whole, "/surfaces/0/layers", "9");

        Assert.NotNull(Read(Edited.At(layers, "/surfaces/0/sections", "99")));
        Assert.Null(Read(Edited.At(Edited.At(Edited.At(layers, "/surfaces/0/sections", "99"), "/surfaces/1/sections", "99"), "/surfaces/1/layers", "2")));
        Assert.Equal("/surfaces", Assert.Single(_faults.All).Place);
    }

    [Fact]
    public void Job_OfThousandsOfSurfaces_IsRefusedWithoutAFaultForEach()
    {
        Assert.Null(Read(Edited.At(JobVariants.Whole, "/surfaces", $"[{string.Join(',', Enumerable.Repeat("{}", 20_000))}]")));
        Assert.Contains(_faults.All, f => f is { Place: "/surfaces", Seen: "20000" });
        Assert.True(_faults.Count < 500);
    }

    // What was told before it was begun was left out without a word; a number too large was said twice.
    [Theory]
    [InlineData("/recorded/order", null)]
    [InlineData("/recorded/order", "7")]
    [InlineData("/recorded/order/0/did", "\"told\"")]
    [InlineData("/recorded/order/0/readings", "-1")]
    [InlineData("/recorded/order/1/tap", "1")]
    [InlineData("/recorded/order/1/tap", null)]
    [InlineData("/recorded/order/1", null, "/recorded/order")]
    [InlineData("/recorded/order/1/tap", "0.5")]
    [InlineData("/recorded/order/2/job", "1")]
    [InlineData("/recorded/order/2/did", "\"begun\"")]
    [InlineData("/recorded/order/-", """{"readings":0,"now":"2026-03-02T12:05:00Z","at":"2026-03-02T12:06:00Z","did":"left","job":0}""", "/recorded/order/3/did")]
    [InlineData("/recorded/openedAt", "\"2099-03-02T10:00:00Z\"", "/recorded/endedAt")]
    [InlineData("/recorded/openedAt", "\"2026-03-02T10:00:01Z\"", "/recorded/order/0/now")]
    [InlineData("/recorded/endedAt", "\"2026-03-02T12:04:59Z\"", "/recorded/order/2/at")]
    [InlineData("/recorded/order/0/at", "\"2099-03-02T10:00:00Z\"")]
    [InlineData("/recorded/order/1/at", "\"2099-03-02T10:00:00Z\"")]
    [InlineData("/recorded/order/2/at", "\"2099-03-02T10:00:00Z\"")]
    [InlineData("/recorded/order/1/at", "\"2026-03-02T09:59:00Z\"")]
    [InlineData("/recorded/order/1/at", "\"2026-03-02T10:59:59Z\"")]
    [InlineData("/recorded/order/1/now", "\"2026-03-02T11:05:01Z\"")]
    [InlineData("/recorded/order/1/now", "\"2026-03-02T09:59:59Z\"")]
    [InlineData("/recorded/order/0/readings", "1", "/recorded/order/1/readings")]
    [InlineData("/taps/0/at", "\"2099-03-02T10:00:00Z\"", "/recorded/order/1/at")]
    [InlineData("/recorded/beside/-", """{"job":"job-7","bay":"bay-1","surfaces":[]}""", "/recorded/beside/0/surfaces")]
    [InlineData("/taps/0/at", "\"noon\"")]
    public void RecordedDay_WithOneFault_IsRefusedInOneLine(string changed, string? json, string? place = null)
    {
        const string Day = """
            {"openedAt":"2026-03-02T10:00:00Z","endedAt":"2026-03-02T13:00:00Z","beside":[],"order":[
              {"readings":0,"now":"2026-03-02T10:00:00Z","at":"2026-03-02T10:00:00Z","did":"begun","job":0},
              {"readings":0,"now":"2026-03-02T10:00:00Z","at":"2026-03-02T11:05:00Z","did":"told","job":0,"tap":0},
              {"readings":0,"now":"2026-03-02T11:05:00Z","at":"2026-03-02T12:05:00Z","did":"left","job":0}]}
            """;
        string told = Edited.At(JobVariants.Whole, "/taps", """[{"at":"2026-03-02T11:00:00Z","did":"applied"}]""");
        string whole = Edited.At(told, "/recorded", Day);
        Assert.Equal(3, Read(whole)!.Day!.Order.Length);

        Assert.Null(Read(Edited.At(whole, changed, json)));
        Assert.Equal(place ?? changed, Assert.Single(_faults.All).Place);
    }

    [Fact]
    public void RecordedDay_ToldBeforeItWasBegun_IsRefused()
    {
        const string Order = """
            [{"readings":0,"now":"2026-03-02T10:00:00Z","at":"2026-03-02T11:05:00Z","did":"told","job":0,"tap":0},
             {"readings":0,"now":"2026-03-02T11:05:00Z","at":"2026-03-02T11:05:00Z","did":"begun","job":0}]
            """;
        string told = Edited.At(JobVariants.Whole, "/taps", """[{"at":"2026-03-02T11:00:00Z","did":"applied"}]""");
        Assert.Null(Read(Edited.At(told, "/recorded", $$"""{"openedAt":"2026-03-02T10:00:00Z","beside":[],"order":{{Order}}}""")));
        Assert.Equal("/recorded/order/0/did", Assert.Single(_faults.All).Place);
    }

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    private JobRecord? Read(string text) => JobFile.Read(_written.File("job.json", text), _configuration, _faults);
}
