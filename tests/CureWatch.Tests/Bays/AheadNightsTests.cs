using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Reports;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>Nights nobody hears, closures of several nights, and remedies that would do harm. Common practice, no source.</summary>
public class AheadNightsTests
{
    private static readonly Probe Outdoor = new("outdoor", Measures.Outdoor, 0, 0, 0.3, 2, TimeSpan.FromMinutes(1));

    [Fact]
    public void Morning_AfterANightThatNobodyMeasured_IsNotCalledQuiet()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(0.5, Did.Applied).Tap(0.55, Did.Levelled).Steady(1, 9.5).Until(24.2);
        MorningReport report = MorningReport.Of(shop.Shop, "bay-1");

        Assert.Equal([new Spell(TestShop.At(10), null)], report.Unheard);
        Assert.Contains(report.Happened, w => w.Subject.Kind == WarningKind.ProbeSilent);
        Assert.StartsWith("Nobody measured the air Mon 18:00 to now", report.Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Morning_AfterAQuietNight_SaysSo()
    {
        TestShop shop = new TestShop().Steady(0, 24.2);
        Assert.StartsWith("The night was quiet.", MorningReport.Of(shop.Shop, "bay-1").Text.ToString(), StringComparison.Ordinal);
    }

    // Shut from Monday evening to Thursday morning: each of the wet nights is warned of, not only the first.
    [Fact]
    public void ShopThatIsShutForDays_IsWarnedOfEachNight()
    {
        ProductSheet paint = TestShop.Paint();
        ProductSheet slow = paint with { Stages = [.. paint.Stages.Select(s => s.Stage == Stage.KeepDry ? TestShop.Row(Stage.KeepDry, Mechanism.Cure, 100) : s)] };
        var shop = new TestShop(slow, 1, 1, Place.Outside, null, TestShop.Air("air-1"), TestShop.Panel("panel-1"));
        ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>> open = shop.Shop.Plan.Hours.Open.SetItem(DayOfWeek.Tuesday, []).SetItem(DayOfWeek.Wednesday, []);
        shop.Take(new Message.PlanChanged(shop.Shop.Plan with { Hours = new OpeningHours(TimeZoneInfo.Utc, open) }, TestShop.Start));
        for (int minute = 0; minute <= 60 * 24 * 3; minute++)
        {
            double hour = minute / 60.0;
            (double c, double pct) = Daily(hour);
            shop.Read(hour, c, pct).ReadPanel(hour, c);
            shop = minute == 60 ? shop.Tap(0.9, Did.Applied).Tap(1, Did.Levelled) : shop;
        }

        Assert.True(shop.Warnings(WarningKind.Condensing).Count() >= 3, "the nights were not wet");
        Assert.True(shop.Warnings(WarningKind.CondensingAhead).Count() >= 2, $"{shop.Warnings(WarningKind.CondensingAhead).Count()} warned of ahead");
    }

    [Fact]
    public void Night_IsThatOfTheStretchThatIsAskedAbout_AndUnknownBeyondWhatIsForeseen()
    {
        TestShop shop = new TestShop().Steady(0, 2, 20, 72);
        Func<DateTimeOffset, DateTimeOffset?, NightAhead?> nights = LookAhead.NightsOf(shop.Shop, shop.Shop.Bays["bay-1"])!;
        NightAhead day = nights(TestShop.At(2), TestShop.At(6))!, night = nights(TestShop.At(2), TestShop.At(24))!, after = nights(TestShop.At(25), TestShop.At(25.2))!;
        Assert.True(day.LeastSpreadK > night.LeastSpreadK && day.LeastSpreadAt <= TestShop.At(6), $"{day} {night}");
        Assert.InRange(after.LeastSpreadAt, TestShop.At(25), TestShop.At(27));
        Assert.Null(nights(TestShop.At(2 + 36), null));
    }

    [Fact]
    public void OutdoorProbeOfOneBay_TellsTheForecastOfEach()
    {
        var shop = new TestShop(null, 1, 1, Place.Outside, null, TestShop.Air("air-1"), Outdoor);
        BayPlan alone = shop.Shop.Plan.Bays[1] with { Probes = [new ProbeMount(TestShop.Air("air-1"), null, Place.Outside)] };
        shop.Take(new Message.PlanChanged(shop.Shop.Plan with { Bays = [shop.Shop.Plan.Bays[0], alone] }, TestShop.Start));
        for (int minute = 0; minute < 60 * 6; minute++)
        {
            double hour = minute / 60.0;
            shop.Read(hour, 5 + hour, 80, "outdoor").Read(hour, 15, 50).Read(hour, 15, 50, bay: "bay-2");
        }

        ImmutableArray<HourValue> own = shop.Shop.Bays["bay-1"].Forecaster.Outdoors, lent = shop.Shop.Bays["bay-2"].Forecaster.Outdoors;
        Assert.NotEmpty(own);
        Assert.Equal(own.AsEnumerable(), lent);
    }

    /// <summary>Frost outdoors, a sheet from 10 °C on: airing all night would take the bay to where the sheet ends.</summary>
    [Theory]
    [InlineData(-5, false)]
    [InlineData(10.5, true)]
    public void Extraction_IsNotAdvisedIntoAirTheSheetDoesNotAllow(double outdoorC, bool isAdvised)
    {
        BayState bay = Equipped(new SheetLimits(10, 30, null, 75, 3, 70), Equipment.Extraction);
        var now = new AirNow(TestShop.At(9), 285, 1250) { Outdoors = (outdoorC + 273.15, 380), LeavesAt = TestShop.At(10), OpensAt = TestShop.At(24) };

        Assert.Equal(isAdvised, BayRemedies.Against(bay, now, WarningKind.CondensingAhead, TestShop.At(12)).Any());
    }

    [Theory]
    [InlineData(50, 75, WarningKind.HumidityLowAhead, 55)]
    [InlineData(30, 75, WarningKind.HumidityLowAhead, 45)]
    [InlineData(20, 45, WarningKind.HumidityHighAhead, 40)]
    [InlineData(52, 75, WarningKind.HumidityHighAhead, 52)]
    public void MoistureIsHeldInsideTheSheet(double leastPct, double mostPct, WarningKind kind, double heldPct)
    {
        BayState bay = Equipped(new SheetLimits(10, 30, leastPct, mostPct, 3, 70), Equipment.Humidifier, Equipment.Dehumidifier);
        Remedy remedy = Assert.Single(BayRemedies.Against(bay, new AirNow(TestShop.At(9), 291, 900), kind, TestShop.At(12)));
        Assert.Equal(heldPct, remedy.Climate.LeastHumidityPct ?? remedy.Climate.MostHumidityPct);
    }

    // 8 °C and 40 % are 21 % at 18 °C: against water it helps, and the sheet allows 30 %.
    [Fact]
    public void Heat_IsNotHeldWhereTheAirWouldBeTooDry()
    {
        BayState bay = Equipped(new SheetLimits(null, 30, 30, 75, 3, 70), Equipment.FixedHeating);
        double[] held = [.. BayRemedies.Against(bay, new AirNow(TestShop.At(9), 281.15, 429), WarningKind.CondensingAhead, TestShop.At(12)).Select(r => r.Climate.LeastAirKelvins!.Value - 273.15)];
        Assert.Equal([12.0], held.Select(c => Math.Round(c)));
    }

    private static BayState Equipped(SheetLimits limits, params Equipment[] equipment)
    {
        TestShop shop = new(sheet: TestShop.Paint() with { Limits = limits });
        shop.Take(new Message.PlanChanged(shop.Shop.Plan with { Bays = [.. shop.Shop.Plan.Bays.Select(b => b with { Equipment = [.. equipment] })] }, TestShop.Start));
        return shop.Steady(7, 8).Tap(8, Did.Applied).Tap(8.05, Did.Levelled).Shop.Bays["bay-1"];
    }

    /// <summary>Warmest at four in the afternoon, wet about four in the morning.</summary>
    private static (double C, double Pct) Daily(double hour)
    {
        double airC = 14 - (5 * Math.Cos(2 * Math.PI * (hour - 20) / 24)), pascals = 611.2 * Math.Exp(17.62 * 9.8 / (243.12 + 9.8));
        return (airC, Math.Min(100, 100 * pascals / (611.2 * Math.Exp(17.62 * airC / (243.12 + airC)))));
    }
}
