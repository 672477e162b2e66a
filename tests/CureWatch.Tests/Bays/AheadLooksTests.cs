using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Reports;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>A bay that cools into its dew point, as told before, while and after it does.</summary>
public class AheadLooksTests
{
    private const double Coated = 8;

    [Fact]
    public void CoolingBay_IsWarnedOfHoursAhead_OncePerEpisode_AndTheWarningItselfTakesItsPlace()
    {
        TestShop shop = Coat(new TestShop()).Climate(Coated + 0.1, 24, Cooling);

        Warning ahead = Assert.Single(shop.Warnings(WarningKind.CondensingAhead)), now = Assert.Single(shop.Warnings(WarningKind.Condensing));
        Assert.True(now.RaisedAt - ahead.RaisedAt >= TimeSpan.FromHours(2));
        Assert.Equal(now.RaisedAt, ahead.ClearedAt);
        Assert.Contains("chance that water condenses on the coldest panel from", ahead.Detail?.ToString(), StringComparison.Ordinal);
        Assert.InRange(ahead.Lead!.Value, TimeSpan.Zero, now.RaisedAt - ahead.RaisedAt + TimeSpan.FromHours(6));
    }

    [Fact]
    public void SteadyBay_IsLeftInPeace() =>
        Assert.DoesNotContain(Coat(new TestShop()).Steady(Coated + 0.1, 30).Shop.Warnings.Values, w => Foreseen.IsAhead(w.Subject.Kind));

    /// <summary>
    /// When the heating goes back for the first night anybody measures, the air falls to what the walls are; a panel shows them. At 20 °C in air that condenses at 15.5 °C
    /// that is 4.5 K of fall: next to none where the panel is as warm as the air, likely where it is 3 K below.
    /// </summary>
    [Fact]
    public void FirstHeatedEvening_IsAtRisk_WhereThePanelsShowColdWalls_NotWhereTheyAreAsWarmAsTheAir()
    {
        double warm = WetChanceWithPanelsBelowAir(0), cold = WetChanceWithPanelsBelowAir(2.5), unmeasured = WetChanceWithPanelsBelowAir(null);
        Assert.InRange(warm, 0, AlarmRules.LikelyEnough);
        Assert.InRange(cold, 0.4, 1);
        Assert.InRange(unmeasured, warm + 0.05, 1);
    }

    [Fact]
    public void BayWithoutACoat_IsNotLookedAheadIn()
    {
        TestShop shop = new TestShop().Climate(0, 20, Cooling);
        Assert.DoesNotContain(shop.Shop.Warnings.Values, w => Foreseen.IsAhead(w.Subject.Kind));
        Assert.Null(shop.Shop.Bays["bay-1"].Ahead);
    }

    [Fact]
    public void Remedies_AreThoseOfTheBay_AndNoneThatMustNotBeLeftAlone_Overnight()
    {
        string[] nothing = ActionsAt(20), portable = ActionsAt(20, Equipment.PortableHeater, Equipment.Lamp);
        string[] heated = ActionsAt(20, Equipment.FixedHeating, Equipment.PortableHeater, Equipment.Lamp), dried = ActionsAt(20, Equipment.Dehumidifier);
        Assert.Empty(nothing);
        Assert.Empty(portable);
        Assert.Contains("fixed heating", Assert.Single(heated), StringComparison.Ordinal);
        Assert.StartsWith("Dehumidifier on now", Assert.Single(dried), StringComparison.Ordinal);
    }

    /// <summary>A portable heater stands beside somebody: what it does ends when they go, also where what it is against began before.</summary>
    [Theory]
    [InlineData(Equipment.PortableHeater, 1)]
    [InlineData(Equipment.FixedHeating, double.PositiveInfinity)]
    public void Heater_HelpsForAsLongAsItMayRun(Equipment heater, double hours)
    {
        BayState bay = At(15, heater).Shop.Bays["bay-1"];
        var now = new AirNow(TestShop.At(9), 284, 1300) { LeavesAt = TestShop.At(10), OpensAt = TestShop.At(24) };
        Remedy[] remedies = [.. BayRemedies.Against(bay, now, WarningKind.CondensingAhead, TestShop.At(9.5))];
        Assert.NotEmpty(remedies);
        Assert.All(remedies, r => Assert.Equal(hours, r.Climate.ForHours));
    }

    [Fact]
    public void Heat_IsNeverHeldBelowWhatTheSheetsNeed()
    {
        TestShop shop = new(sheet: TestShop.Paint() with { Limits = new SheetLimits(17, 30, 30, 75, 3, 70) });
        ShopPlan plan = shop.Shop.Plan;
        shop.Take(new Message.PlanChanged(plan with { Bays = [.. plan.Bays.Select(b => b with { Equipment = [Equipment.FixedHeating] })] }, TestShop.Start));
        var now = new AirNow(TestShop.At(9), 284, 1300) { LeavesAt = TestShop.At(10), OpensAt = TestShop.At(24) };
        Remedy[] remedies = [.. BayRemedies.Against(Coat(shop).Shop.Bays["bay-1"], now, WarningKind.CondensingAhead, TestShop.At(12))];
        Assert.NotEmpty(remedies);
        Assert.All(remedies, r => Assert.True(r.Climate.LeastAirKelvins >= 17 + 273.15));
    }

    /// <summary>Dry air that all but stops the cure is no water, and is said all the same.</summary>
    [Fact]
    public void LockUp_OfABayInWhichNothingCures_SaysSo()
    {
        TestShop shop = Coat(new TestShop()).Climate(Coated + 0.1, 10, _ => (20, 12));
        TonightReport report = TonightReport.Of(shop.Shop, "bay-1");
        Assert.Equal(TonightVerdict.Safe, report.Verdict);
        Assert.Matches("^Tonight: job-1 safe from water, but: .* chance that the cure all but stops from .*[.] Least above", report.Text.ToString());
    }

    [Fact]
    public void Remedy_IsOfferedWithWhatItDoes_AndOnlyWhereItDoesSomething()
    {
        Risk risk = At(20, Equipment.FixedHeating, Equipment.Dehumidifier).Shop.Bays["bay-1"].Ahead!.Of(WarningKind.CondensingAhead)!;
        Assert.Equal(2, risk.Remedies.Length);
        Assert.All(risk.Remedies, r => Assert.True(r.HelpsAgainst(risk.Chance) && r.ChanceAfter >= 0));
    }

    [Fact]
    public void NothingThatHelps_WakesNobody_AndIsToldInTheMorning()
    {
        TestShop without = Coat(new TestShop()).Climate(Coated + 0.1, 24, h => Cooling(h - 3)), with = Coat(Equipped(Equipment.FixedHeating)).Climate(Coated + 0.1, 24, h => Cooling(h - 3));
        Assert.All(without.Warnings(WarningKind.CondensingAhead).Where(IsAtNight), w => Assert.False(w.Wakes));
        Assert.All(with.Warnings(WarningKind.CondensingAhead), w => Assert.True(w.Wakes));
        Assert.NotEmpty(without.Warnings(WarningKind.CondensingAhead));
        Assert.Contains("look at the coats first thing in the morning", TonightReport.Of(At(20).Shop, "bay-1").OnCall.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void LockUp_SaysWhatIsAtRiskFromWhen_AndWhatHelps()
    {
        TonightReport report = TonightReport.Of(At(20, Equipment.FixedHeating).Shop, "bay-1");
        Assert.Equal(TonightVerdict.AtRisk, report.Verdict);
        Assert.Matches("^Tonight: job-1 at risk from .*, .*%\\. Hold [0-9]+ °C on the fixed heating, doors shut: the chance falls from .* to .*\\.$", report.Text.ToString());
        Assert.StartsWith("On call: from ", report.OnCall.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void LockUp_OfADryBay_IsSafe_AndOfASilentOneNotKnown()
    {
        TestShop shop = Coat(new TestShop()).Steady(Coated + 0.1, 10);
        Assert.Equal(TonightVerdict.Safe, TonightReport.Of(shop.Shop, "bay-1").Verdict);
        Assert.Equal(TonightVerdict.NothingOpen, TonightReport.Of(shop.Shop, "bay-2").Verdict);
        Assert.Equal(TonightVerdict.Unknown, TonightReport.Of(shop.Until(11).Shop, "bay-1").Verdict);
    }

    [Fact]
    public void Morning_TellsWhatHappened_AndWhatToLookAtFirst()
    {
        TestShop shop = Coat(new TestShop()).Climate(Coated + 0.1, 24.2, Cooling);
        MorningReport report = MorningReport.Of(shop.Shop, "bay-1");
        Assert.Equal(TestShop.At(10), report.From);
        Assert.NotEmpty(report.Water);
        Assert.Contains(report.Happened, w => w.Subject.Kind == WarningKind.Condensing);
        Assert.EndsWith("Look first: bonnet.", report.Text.ToString(), StringComparison.Ordinal);
        Assert.Equal(HoldKind.Condensation, report.LookFirst[0].Hold.Kind);
    }

    [Fact]
    public void AirOutdoorsThatIsMoister_IsToldBeforeSomebodyOpensADoor()
    {
        Probe outdoor = new("outdoor", Measures.Outdoor, 0, 0, 0.3, 2, TimeSpan.FromMinutes(1));
        TestShop shop = new(probes: [TestShop.Air("air-1"), outdoor]);
        Coat(shop);
        for (double hour = Coated + 0.1; hour < 12; hour += 0.1)
        {
            shop.Read(hour, 12, 60).Read(hour, 20, 90, probe: "outdoor");
        }

        Assert.Single(shop.Warnings(WarningKind.OutdoorWets));
        Assert.NotNull(TonightReport.Of(shop.Shop, "bay-1").Doors);
    }

    private static double WetChanceWithPanelsBelowAir(double? belowK)
    {
        Probe panel = TestShop.Panel("panel-1");
        TestShop shop = belowK is null ? new(probes: [TestShop.Air("air-1")]) : new(probes: [TestShop.Air("air-1"), panel]);
        ShopPlan plan = shop.Shop.Plan;
        shop = shop.Take(new Message.PlanChanged(plan with { Bays = [.. plan.Bays.Select(b => b with { Equipment = [Equipment.FixedHeating] })] }, TestShop.Start));
        for (double hour = Coated; hour < 10; hour += 1 / 30.0)
        {
            shop.Read(hour, 20, 100 * Pascals(15.5) / Pascals(20));
            shop = belowK is { } below ? shop.ReadPanel(hour, 20 - below) : shop;
            shop = hour == Coated ? shop.Tap(hour, Did.Applied).Tap(hour + 0.01, Did.Levelled) : shop;
        }

        return shop.Shop.Bays["bay-1"].Ahead!.Of(WarningKind.CondensingAhead)?.SoonChance ?? 0;
    }

    private static bool IsAtNight(Warning warning) => warning.RaisedAt.Hour is >= 18 or < 8;

    private static TestShop At(double hour, params Equipment[] equipment) => Coat(Equipped(equipment)).Climate(Coated + 0.1, hour - 6, Cooling);

    private static string[] ActionsAt(double hour, params Equipment[] equipment) =>
        [.. At(hour, equipment).Shop.Bays["bay-1"].Ahead!.Of(WarningKind.CondensingAhead)!.Remedies.Select(r => r.Text.ToString())];

    private static TestShop Equipped(params Equipment[] equipment)
    {
        var shop = new TestShop();
        ShopPlan plan = shop.Shop.Plan;
        return shop.Take(new Message.PlanChanged(plan with { Bays = [.. plan.Bays.Select(b => b with { Equipment = [.. equipment] })] }, TestShop.Start));
    }

    private static TestShop Coat(TestShop shop) => shop.Climate(Coated - 1, Coated, Cooling).Tap(Coated, Did.Applied).Tap(Coated + 0.05, Did.Levelled);

    /// <summary>From 18 °C at 16 o'clock down by half a kelvin an hour, the moisture staying what it is at 12 °C: wet twelve hours later.</summary>
    private static (double C, double Pct) Cooling(double hour)
    {
        double airC = Math.Max(9, 18 - (0.5 * Math.Max(0, hour - Coated)));
        return (airC, Math.Min(100, 100 * Pascals(12) / Pascals(airC)));
    }

    private static double Pascals(double celsius) => 611.2 * Math.Exp(17.62 * celsius / (243.12 + celsius));
}
