using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Service.Book;
using CureWatch.Service.Tests.Settings;
using CureWatch.Warnings;
using LiteDB;

namespace CureWatch.Service.Tests.Book;

public sealed class StoredMappingTests : IDisposable
{
    private static readonly DateTimeOffset At = new(2026, 5, 4, 8, 0, 0, 123, TimeSpan.Zero);

    private readonly Written _written = new();
    private readonly BookFile _file;

    public StoredMappingTests() => _file = Books.New(_written.Folder);

    public void Dispose()
    {
        _file.Dispose();
        _written.Dispose();
    }

    [Fact]
    public void Job_ComesBackAsItWas()
    {
        ImmutableArray<Surface> surfaces =
        [
            new("bonnet", Material.Film, Material.Steel, Place.Outside, "paint", 3, 2, 4),
            new("wheels", Material.Casting, null, Place.OffCar, "wheel", 1, 1, 1),
            new("roof", Material.Steel, null, Place.Outside, "base", 1, 3, 1, new NextProduct("top", 2, 3)),
        ];
        foreach (BookedJob job in new[]
        {
            new BookedJob(7, "job-1", "bay-1", At, At.AddDays(1), new BookedDeparture(9, At.AddHours(2), true), surfaces),
            new BookedJob(8, "job-2", "bay-1", At, null, null, []),
        })
        {
            _file.Write(() => _file.Jobs.Upsert(StoredJob.Of(job)));

            BookedJob read = _file.Jobs.FindById(job.Id).Read();
            Assert.Equal(job with { Surfaces = [] }, read with { Surfaces = [] });
            Assert.Equal(job.Surfaces, read.Surfaces);
        }
    }

    [Fact]
    public void Tap_ComesBackWithoutWhoToldIt()
    {
        var whole = new Tap(
            "t1", At, At.AddMinutes(1), "bonnet", Did.Reworked, 2, 3, At.AddMinutes(-1), 19.25, Found.HighSpot, How.ReWet, "bay-2",
            "SOMEBODY", "THEIR WORDS", "t0", Batch: "A-7");
        foreach (Tap tap in new[] { whole, new Tap(null, At, At, null, Did.Wetted) })
        {
            _file.Write(() => _file.Taps.Upsert(StoredTap.Of(new BookedTap(9, "job-1", tap))));

            Assert.Equal(new BookedTap(9, "job-1", tap with { By = null, Note = null }), _file.Taps.FindById(9).Read());
        }
    }

    [Fact]
    public void Warning_ComesBackAsItWas()
    {
        var whole = new Warning(
            new Subject(WarningKind.HumidityHigh) { Bay = "bay-1", Probe = "air", Job = "job-1", Surface = "bonnet", Layer = 2, Section = 3, Air = Place.Cabin },
            "roof",
            At,
            At.AddHours(1),
            TimeSpan.FromMinutes(90));
        var least = new Warning(new Subject(WarningKind.Wetted), null, At, null, null);
        foreach (Warning warning in new[] { whole, least })
        {
            _file.Write(() => _file.Warnings.Upsert(StoredWarning.Of(new BookedWarning(0, warning))));

            Assert.Equal(new BookedWarning(0, warning), _file.Warnings.FindById(0).Read());
        }
    }

    [Fact]
    public void Record_ComesBackWordForWord()
    {
        const string Json = "\uFEFF {\"a\": 1}\n\n";
        _file.Write(() => _file.Records.Upsert(new StoredRecord { Id = "job-1", Json = Json }));

        Assert.Equal(Json, _file.Records.FindById("job-1").Json);
    }

    [Fact]
    public void Position_ComesBackAsItWas()
    {
        var position = new BookPosition(long.MaxValue, At, 7);
        _file.Write(() => _file.Positions.Upsert(StoredPosition.Of(position)));

        Assert.Equal(position, _file.Position());
    }

    [Fact]
    public void Block_ComesBackAsItWas()
    {
        var block = new ReadingBlock("bay-1", "air", 3);
        block.Add(5, new BookedReading(At, 19.2514, 50.7));
        block.Add(8, new BookedReading(At.AddMinutes(-3), -3.5, null));
        _file.Write(() => _file.Open.Upsert(StoredBlock.OfOpen(block)));

        ReadingBlock read = _file.Open.FindById("bay-1/air").Read();
        Assert.Equal(
            (block.Bay, block.Probe, block.BaseUnixMs, block.FromUnixMs, block.ToUnixMs, 8L),
            (read.Bay, read.Probe, read.BaseUnixMs, read.FromUnixMs, read.ToUnixMs, read.Through));
        Assert.Equal(block.Samples, read.Samples);
    }

    [Fact]
    public void Document_CarriesItsVersionAndKind_AndNoTypeOfOurs()
    {
        var mapper = new BsonMapper();
        var job = new BookedJob(1, "j", "b", At, null, null, [new("s", Material.Steel, null, Place.Outside, "p", 1, 1, 1)]);
        foreach (BsonDocument document in new[]
        {
            mapper.ToDocument(StoredJob.Of(job)),
            mapper.ToDocument(new StoredTap()), mapper.ToDocument(new StoredWarning()), mapper.ToDocument(new StoredRecord()),
            mapper.ToDocument(new StoredBlock()), mapper.ToDocument(new StoredPosition()),
        })
        {
            Assert.Equal(1, document["Version"].AsInt32);
            Assert.NotEmpty(document["Kind"].AsString);
            Assert.DoesNotContain("_type", document.ToString(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void NameNobodyKnows_IsSaid() =>
        Assert.Contains(
            "'brick'", Assert.Throws<InvalidDataException>(() => StoredName.Of<Material>("brick")).Message, StringComparison.Ordinal);
}
