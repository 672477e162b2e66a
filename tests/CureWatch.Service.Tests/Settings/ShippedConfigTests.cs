using System.Text.Json;
using CureWatch.Products;
using CureWatch.Service.Settings;
using Json.Schema;

namespace CureWatch.Service.Tests.Settings;

public class ShippedConfigTests
{
    private readonly Faults _faults = new();
    private readonly Configuration _configuration;

    public ShippedConfigTests() => _configuration = Configuration.Read(Shipped.Folder, _faults)!;

    public static TheoryData<string, string> FilesWithTheirSchema { get; } =
    [
        ("shop.json", "shop"), ("curewatch.json", "curewatch"), ("example/job.json", "job"),
        .. SheetFiles.Select(f => (Path.Combine("products", f), "product")),
    ];

    private static IEnumerable<string> SheetFiles =>
        Directory.GetFiles(Path.Combine(Shipped.Folder, "products")).Select(f => Path.GetFileName(f));

    [Theory]
    [MemberData(nameof(FilesWithTheirSchema))]
    public void File_IsValidByItsSchema_AndNamesIt(string file, string schema)
    {
        string path = Path.Combine(Shipped.Folder, file);
        JsonElement document = JsonElement.Parse(File.ReadAllText(path));

        EvaluationResults results = Shipped.Schema(schema).Evaluate(document, new EvaluationOptions { OutputFormat = OutputFormat.List });

        Assert.True(results.IsValid, JsonSerializer.Serialize(results));
        string named = Path.Combine(Path.GetDirectoryName(path)!, document.GetProperty("$schema").GetString()!);
        Assert.Equal(Path.GetFullPath(Shipped.SchemaFile(schema)), Path.GetFullPath(named));
    }

    [Fact]
    public void Configuration_HoldsNoFault() => Assert.Empty(_faults.All);

    [Fact]
    public void Sheets_CoverEveryKind_AndSayThatTheyAreInvented()
    {
        Assert.Equal(Enum.GetValues<ProductKind>(), _configuration.Catalogue.Sheets.Select(s => s.Kind).Distinct().Order());
        Assert.All(_configuration.Catalogue.Sheets, s => Assert.StartsWith("invented for the demo", s.Source, StringComparison.Ordinal));
        Assert.All(_configuration.Catalogue.Sheets, s => Assert.NotEmpty(s.Cautions));
    }

    [Fact]
    public void SheetFiles_AreNamedByProductAndRevision()
    {
        IEnumerable<string> names = _configuration.Catalogue.Sheets.Select(s => $"{s.Product}-r{s.Revision}.json");

        Assert.Equal(names.Order(), SheetFiles.Order());
    }

    [Fact]
    public void Film_HasItsHeatLimit() =>
        Assert.All(_configuration.Catalogue.Sheets.Where(s => s.Kind == ProductKind.Film), s => Assert.Equal(65, s.Limits.HeatMaxC));

    [Fact]
    public void DressingLeftLonger_IsANote() =>
        Assert.Equal(IfMissed.Note, _configuration.Catalogue.Newest("trim-dressing-demo")!.Find(Stage.LevelBy)!.IfMissed);

    [Fact]
    public void ExampleDay_FitsTheShop()
    {
        JobRecord? record = JobFile.Read(Path.Combine(Shipped.Folder, "example", "job.json"), _configuration, _faults);
        List<ReadingRow> rows = [.. ReadingsFile.Read(Path.Combine(Shipped.Folder, "example", "readings.csv"), _faults)];

        Assert.Empty(_faults.All);
        Assert.NotNull(record);
        Assert.Equal(
            _configuration.Shop.Wiring.Select(w => (w.Bay, w.Probe)).Order(), rows.Select(r => (r.Bay, r.Probe)).Distinct().Order());
    }
}
