using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.TimeWindows;
using static CureWatch.Planning.StartReasonKind;

namespace CureWatch.Tests.Bays;

/// <summary>What a shop knows, gathered into an answer: probes, taps, the layer below, the nights before.</summary>
public class StartReportTests
{
    [Fact]
    public void Start_InAGoodClimate_WipedDown_IsYes_AndSaysHowItIsKnown()
    {
        TestShop shop = Wiped(new TestShop());
        StartAnswer answer = Answer(shop);
        Assert.Equal((StartVerdict.Yes, PanelBasis.Air), (answer.Verdict, answer.Evidence.Panel!.Basis));
        Assert.Equal(20, answer.Evidence.Panel.ColdestC, 1e-6);
        Assert.InRange(answer.Evidence.Panel.DoubtK, 2, 2.2);
        Assert.StartsWith("Start now: bonnet first; done ", Decision(shop).Text.ToString(), StringComparison.Ordinal);
        Assert.EndsWith("lock-up 18:00.", Decision(shop).Text.ToString(), StringComparison.Ordinal);
    }

    /// <summary>Without a panel probe 11 °C of air may be a panel of less than 10; measured by hand it is not.</summary>
    [Fact]
    public void Panel_ThatIsNotMeasured_CountsWithItsDoubt_UntilSomebodyMeasures()
    {
        TestShop shop = new TestShop().Steady(0, 1, airC: 11, humidityPct: 40).Tap(0.9, Did.PanelWiped).Until(1);
        Assert.Equal([PanelCold, Night], Kinds(shop));
        Assert.Contains("panel not measured; reckoned from the air, which it lags, ±", Answer(shop).Reasons[0].Text.ToString(), StringComparison.Ordinal);

        shop.Tap(1, Did.Measured, panelC: 10.5).Tap(1.01, Did.PanelWiped).Read(1.08, 11, 40);
        Assert.Equal([Night], Kinds(shop)); // a hall of 11 °C that nothing heats gets too cold for the sheet
        Assert.Equal(PanelBasis.Spot, Answer(shop).Evidence.Panel!.Basis);
    }

    [Fact]
    public void PanelProbe_ThatIsNotHeard_IsNotTakenForFine()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        shop.Read(0, 20, 50).ReadPanel(0, 19).Steady(0.1, 1).Tap(0.9, Did.PanelWiped).Until(1);
        Assert.Equal([PanelSilent], Kinds(shop));
        Assert.Empty(Kinds(shop.ReadPanel(1.01, 19)));
    }

    [Fact]
    public void Air_ThatIsNotHeard_Stops_AndSoDoesAPlaceNobodyMeasures()
    {
        Assert.Equal([AirSilent], Kinds(new TestShop().Steady(0, 0.5).Tap(1.1, Did.PanelWiped).Until(1.2)));
        Assert.Equal([AirSilent], Kinds(new TestShop().Tap(1.1, Did.PanelWiped).Until(1.2)));
        Assert.Equal([Unwatched], Kinds(Wiped(new TestShop(place: Place.Cabin))));
        StartReason stored = Assert.Single(Answer(Wiped(new TestShop()).Tap(1, Did.Moved, toBay: "store")).Reasons, r => r.Kind == Unwatched);
        Assert.Contains("the store", stored.Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Condensation_Stops_AndAfterItTheWipeFromBeforeDoesNotCount()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        shop.Read(0, 20, 50).ReadPanel(0, 15).Tap(0.1, Did.PanelWiped).Read(0.2, 20, 50).ReadPanel(0.2, 8);
        Assert.Contains(Condensing, Kinds(shop));
        shop.Read(0.4, 20, 50).ReadPanel(0.4, 17).Until(0.45);
        Assert.Equal([WasWet], Kinds(shop));
        Assert.Empty(Kinds(shop.Tap(0.46, Did.PanelWiped).Until(0.55)));
    }

    [Fact]
    public void PolishingHeat_LastsUntilItIsMeasured_AndTheWipeComesAfter()
    {
        TestShop shop = Wiped(new TestShop()).Tap(1, Did.Polished);
        Assert.Equal([PolishingHeat, NotWiped], Kinds(shop));
        Assert.Equal([PanelHot, PolishingHeat, NotWiped], Kinds(shop.Tap(1.01, Did.Measured, panelC: 38)));
        shop.Steady(1.02, 1.2).Tap(1.2, Did.Measured, panelC: 24).Tap(1.21, Did.PanelWiped).Steady(1.22, 1.3);
        Assert.Empty(Kinds(shop));
    }

    [Fact]
    public void Wash_HasToDry_AndThenToDrip()
    {
        TestShop shop = Wiped(new TestShop()).Tap(1, Did.Washed);
        Assert.Equal([TrappedWater, NotWiped], Kinds(shop));
        shop.Tap(1.1, Did.Dried).Tap(1.15, Did.PanelWiped).Steady(1.2, 1.3);
        StartAnswer answer = Answer(shop);
        Assert.Equal((StartVerdict.Wait, TestShop.At(1.6)), (answer.Verdict, answer.From!.Latest!.Value));
        Assert.Equal(StartVerdict.Yes, Answer(shop.Steady(1.4, 1.61)).Verdict);
    }

    /// <summary>The second layer: not over one that is not levelled, from the slow bound of recoat on, not after its fast end.</summary>
    [Fact]
    public void SecondLayer_WaitsForTheFirst()
    {
        TestShop shop = Wiped(new TestShop(layers: 2)).Tap(1, Did.Applied).Steady(1.01, 1.05);
        Assert.Equal([BelowNotLevelled], Kinds(shop));

        shop.Tap(1.06, Did.Levelled).Steady(1.1, 1.5);
        StartAnswer waiting = Answer(shop);
        Window recoat = shop.Window(WindowStage.Recoat);
        Assert.Equal((StartVerdict.Wait, recoat.OpensAt.Latest), (waiting.Verdict, waiting.From!.Latest));
        Assert.Equal(2, waiting.Evidence.Next!.Layer);

        shop.Steady(1.6, 3);
        Assert.Equal([RecoatClosing], Kinds(shop));
        Assert.Equal([RecoatMissed], Kinds(shop.Steady(3.1, 8.5)));
        Assert.Equal(StartVerdict.Yes, Answer(shop.Tap(8.6, Did.Inspected, layer: 1, found: Found.Clear)).Verdict);
        Assert.Equal([NothingLeft], Kinds(shop.Tap(8.7, Did.Applied, layer: 2)));
    }

    [Fact]
    public void SecondLayer_OverOneThatIsHeld_Stops()
    {
        TestShop shop = Wiped(new TestShop(layers: 2)).Tap(1, Did.Applied).Steady(1.01, 1.06).Tap(1.06, Did.Levelled).Steady(1.1, 3);
        shop.Tap(3, Did.Inspected, found: Found.Dust);
        Assert.Equal([BelowHeld, RecoatClosing], Kinds(shop));
        Assert.Equal([RecoatClosing], Kinds(shop.Tap(3.1, Did.Inspected, found: Found.Clear)));
    }

    [Fact]
    public void Sections_ThatAreLeft_AreWhatIsPlanned()
    {
        TestShop shop = Wiped(new TestShop(sections: 6));
        Assert.Equal(6, Answer(shop).Plan!.Layers[0].Sections);
        shop.Tap(1, Did.Applied, section: 1).Tap(1, Did.Applied, section: 3);
        Assert.Equal([2, 4, 5, 6], Answer(shop).Evidence.Next!.Sections);
        Assert.Equal(4, Answer(shop).Plan!.Layers[0].Sections);
    }

    /// <summary>A hall that nothing heats loses some kelvins until the morning: what has to stay dry then comes near the dew point in moist air.</summary>
    [Theory]
    [InlineData(50, new StartReasonKind[0])]
    [InlineData(72, new[] { Night })]
    public void Night_ThatIsForecastThin_IsAReason(double humidityPct, StartReasonKind[] expected)
    {
        TestShop shop = new TestShop().Steady(0, 2, 20, humidityPct).Tap(1.9, Did.PanelWiped).Until(2);
        Assert.Equal(expected, Kinds(shop));
    }

    [Fact]
    public void Shop_ThatIsClosed_SendsToItsNextDay()
    {
        TestShop shop = new TestShop().Steady(0, 11).Tap(10.9, Did.PanelWiped).Until(11);
        StartAnswer answer = Answer(shop);
        Assert.Equal((StartVerdict.Wait, TestShop.At(24)), (answer.Verdict, answer.From!.Latest!.Value));
    }

    [Fact]
    public void Bay_BeforeThereIsACar_AnswersForOneLayer()
    {
        TestShop shop = new TestShop().Steady(0, 1);
        StartDecision good = StartReport.OfBay(shop.Shop, "bay-1", TestShop.Paint(), Material.Glass).Decision;
        Assert.Equal((StartVerdict.Yes, "Start now: glass first"), (good.Verdict, good.Text.ToString()[..22]));
        Assert.Equal([NotWiped], good.Answers[0].Reasons.Select(r => r.Kind));
        Assert.Equal(
            [AirSilent, NotWiped],
            StartReport.OfBay(shop.Shop, "bay-2", TestShop.Paint(), Material.Glass).Decision.Answers[0].Reasons.Select(r => r.Kind));
    }

    private static TestShop Wiped(TestShop shop) => shop.Steady(0, 0.9).Tap(0.9, Did.PanelWiped).Steady(0.91, 1);

    private static StartDecision Decision(TestShop shop) => StartReport.Of(shop.Shop, "job-1").Decision;

    private static StartAnswer Answer(TestShop shop) => Assert.Single(Decision(shop).Answers);

    private static IEnumerable<StartReasonKind> Kinds(TestShop shop) => Answer(shop).Reasons.Select(r => r.Kind);
}
