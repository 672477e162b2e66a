using CureWatch.Products;
using CureWatch.Service.Settings;
using CureWatch.Units;

namespace CureWatch.Service.Tests.Settings;

public sealed class ProductFileTests : IDisposable
{
    private readonly Written _written = new();
    private readonly Faults _faults = new();

    public static TheoryData<string, string?, string> Broken { get; } = [.. SheetVariants.ForBoth, .. SheetVariants.ForTheReader];

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Sheet_WithEveryKey_IsReadWhole()
    {
        ProductSheet sheet = Read(SheetVariants.Whole)!;

        Assert.Empty(_faults.All);
        Assert.Equal(("paint-x", 2, ProductKind.Paint, Carrier.Solvent), (sheet.Product, sheet.Revision, sheet.Kind, sheet.Carrier));
        Assert.Equal(("Paint X", "invented for the test", AfterWetting.Continue), (sheet.Name, sheet.Source, sheet.AfterWetting));
        Assert.Equal(new ReferenceClimate(new Celsius(23), new RelativeHumidity(60)), sheet.Reference);
        Assert.Equal(new SheetLimits(10, 30, 30, 75, 4, 70), sheet.Limits);
        Assert.Equal(Enum.GetValues<Stage>(), sheet.Stages.Select(s => s.Stage));
        Assert.Equal(
            new SheetRow(new Celsius(20), new RelativeHumidity(50), TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(3)),
            sheet.Find(Stage.Flash)!.Rows.Single());
        Assert.Equal(IfMissed.Note, sheet.Find(Stage.LevelBy)!.IfMissed);
        Assert.Equal(
            new SheetRow(new Celsius(10), new RelativeHumidity(50), TimeSpan.FromDays(1), TimeSpan.FromDays(1)),
            sheet.Find(Stage.KeepDry)!.Rows[1]);
        LampBand lamp = sheet.Lamp.Single();
        Assert.Equal((55, 65, 20), (lamp.PanelMinC, lamp.PanelMaxC, lamp.MaxMinutes));
        Assert.Equal((0.2, TimeSpan.FromHours(1)), (lamp.ReferenceHoursPerMinute, lamp.NotBefore));
        Assert.Equal([Stage.KeepDry, Stage.NoWash], lamp.Stages);
        Assert.Equal(["Ventilate.", "Wear gloves."], sheet.Cautions);
    }

    [Fact]
    public void Sheet_InFahrenheit_IsTheSameSheet()
    {
        ProductSheet celsius = Read(SheetVariants.Whole)!, fahrenheit = Read(SheetVariants.InFahrenheit)!;

        Assert.Empty(_faults.All);
        Assert.DoesNotContain("C\":", SheetVariants.InFahrenheit, StringComparison.Ordinal);
        Assert.Equal(Numbers(celsius), Numbers(fahrenheit), (a, b) => Math.Abs(a - b) < 1e-9);

        static IEnumerable<double> Numbers(ProductSheet sheet) =>
        [
            sheet.Reference.Temperature.Degrees, sheet.Limits.PanelMinC!.Value, sheet.Limits.PanelMaxC!.Value, sheet.Limits.SpreadMinK, sheet.Limits.HeatMaxC!.Value,
            .. sheet.Lamp.SelectMany(l => new[] { l.PanelMinC, l.PanelMaxC }),
            .. sheet.Stages.SelectMany(s => s.Rows).Select(r => r.Temperature.Degrees),
        ];
    }

    [Theory]
    [InlineData("/limits/panelMaxF", "49", "/limits/panelMaxF")]
    [InlineData("/lamp/0/panelMaxF", "160", "/lamp/0/panelMaxF")]
    [InlineData("/limits/spreadMinF", "55", "/limits/spreadMinF")]
    [InlineData("/stages/0/rows/0/temperatureF", "213", "/stages/0/rows/0/temperatureF")]
    [InlineData("/stages/0/rows/0/temperatureF", null, "/stages/0/rows/0/temperatureC")]
    public void SheetInFahrenheit_WithOnePlaceBroken_IsRefusedThere(string changed, string? json, string place)
    {
        Assert.Null(Read(Edited.At(SheetVariants.InFahrenheit, changed, json)));
        Assert.Contains(place, _faults.All.Select(f => f.Place));
    }

    [Theory]
    [InlineData("/limits/panelMaxF", "49", "above panelMin, which is 50 °F")]
    [InlineData("/lamp/0/panelMaxF", "160", "up to the sheet's own limits/heatMax, which is 158 °F")]
    public void SheetInFahrenheit_IsToldItsLimitsInFahrenheit(string changed, string json, string allowed)
    {
        Assert.Null(Read(Edited.At(SheetVariants.InFahrenheit, changed, json)));
        Assert.Contains(allowed, _faults.All.Select(f => f.Allowed));
    }

    [Fact]
    public void Sheet_WithOnlyWhatIsRequired_TakesTheStatedDefaults()
    {
        ProductSheet sheet = Read(SheetVariants.Least)!;

        Assert.Empty(_faults.All);
        Assert.Equal(("x", "not stated"), (sheet.Name, sheet.Source));
        Assert.Equal((Carrier.Solvent, AfterWetting.Restart), (sheet.Carrier, sheet.AfterWetting));
        Assert.Equal(ReferenceClimate.Usual, sheet.Reference);
        Assert.Equal(new SheetLimits(null, null, null, null, 3, null), sheet.Limits);
        Assert.Equal([Mechanism.Cure, Mechanism.Evaporation], sheet.Stages.Select(s => s.DrivenBy));
        Assert.Equal(IfMissed.Hold, sheet.Find(Stage.LevelBy)!.IfMissed);
        Assert.Empty(sheet.Lamp);
        Assert.Empty(sheet.Cautions);
    }

    [Theory]
    [MemberData(nameof(Broken))]
    public void Sheet_WithOnePlaceBroken_IsRefusedThere(string changed, string? json, string place)
    {
        Assert.Null(Read(Edited.At(SheetVariants.Whole, changed, json)));
        Assert.Contains(place, _faults.All.Select(f => f.Place));
    }

    [Fact]
    public void Sheet_WithSeveralFaults_NamesThemAll()
    {
        string text = Edited.At(Edited.At(SheetVariants.Whole, "/kind", "\"boat\""), "/lamp/0/panelMaxC", "80");

        Assert.Null(Read(Edited.At(text, "/colour", "1")));
        Assert.Equal(["/colour", "/kind", "/lamp/0/panelMaxC"], _faults.All.Select(f => f.Place).Order());
    }

    [Fact]
    public void KeepDry_LongerThanFullCure_IsRefusedWithoutNoWashToo()
    {
        string text = Edited.At(SheetVariants.Whole, "/stages/5", null);

        Assert.Null(Read(Edited.At(text, "/stages/5/rows/0/at", "\"13:00:00\"")));
        Assert.Equal("/stages/5/rows/0", Assert.Single(_faults.All).Place);
    }

    [Theory]
    [InlineData(100, 0)]
    [InlineData(101, 1)]
    [InlineData(60_000, 1)]
    public void Stage_WithMoreRowsThanAnySheetHas_IsRefusedOnce(int rows, int faults)
    {
        string many = string.Join(',', Enumerable.Repeat("""{"temperatureC":20,"humidityPct":50,"at":"7.00:00:00"}""", rows));

        _ = Read(Edited.At(SheetVariants.Whole, "/stages/6/rows", $"[{many}]"));
        Assert.Equal(Enumerable.Repeat("/stages/6/rows", faults), _faults.All.Select(f => f.Place));
    }

    private ProductSheet? Read(string text) => ProductFile.Read(_written.File("sheet.json", text), _faults);
}
