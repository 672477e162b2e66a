using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Reports;
using CureWatch.Tests.Bays;

namespace CureWatch.Tests.Reports;

public class BayReportTests
{
    [Fact]
    public void Bay_NeverHeard_HasNoClimate()
    {
        BayReport report = BayReport.Of(new TestShop().Shop, "bay-1");
        AirReport air = Assert.Single(report.Airs);
        Assert.Null(air.Climate);
        Assert.Null(air.MeasuredAt);
        ProbeReport probe = Assert.Single(report.Probes);
        Assert.Equal((ProbeState.Awaited, null, null, null), (probe.State, probe.HeardAt, probe.Air, probe.Panel));
    }

    [Fact]
    public void Bay_Heard_HasItsClimateAgainstTheAir()
    {
        BayReport report = BayReport.Of(new TestShop().Steady(0, 1).Shop, "bay-1");
        Assert.Equal(9.27, report.Airs[0].Climate!.DewPoint.Degrees, 0.005);
        Assert.Equal(20 - 9.27, report.Airs[0].Climate!.SpreadKelvins!.Value, 0.005);
        Assert.False(report.Airs[0].IsPanelMeasured);
        Assert.Equal(TestShop.At(1), report.Airs[0].MeasuredAt);
        Assert.Equal((ProbeState.Heard, TestShop.At(1)), (report.Probes[0].State, report.Probes[0].HeardAt));
    }

    [Fact]
    public void Bay_WithPanelProbes_TakesTheColdest()
    {
        BayReport report = BayReport.Of(TwoPanels().ReadPanel(1, 15, "panel-1").ReadPanel(1, 12, "panel-2").Shop, "bay-1");
        Assert.Equal(12, report.Airs[0].Climate!.Panel!.Value.Degrees, 1e-9);
        Assert.True(report.Airs[0].IsPanelMeasured);
    }

    [Fact]
    public void Bay_WhoseOnePanelProbeIsMissing_KnowsNoSpread()
    {
        BayReport report = BayReport.Of(
            TwoPanels().ReadPanel(1, 15, "panel-1").ReadPanel(1, 12, "panel-2").Steady(1, 2).ReadPanel(2, 15, "panel-1").Until(2).Shop, "bay-1");
        Assert.NotNull(report.Airs[0].Climate);
        Assert.Null(report.Airs[0].Climate!.SpreadKelvins);
        Assert.Equal(ProbeState.Silent, report.Probes[2].State);
    }

    [Fact]
    public void Bay_WithTwoAirProbes_TakesTheWettest()
    {
        TestShop shop = new TestShop(probes: [TestShop.Air("air-1"), TestShop.Air("air-2")]).Read(1, 20, 50).Read(1, 18, 70, "air-2");
        Assert.Equal(DewPoint.Of(new(18), new(70)), BayReport.Of(shop.Shop, "bay-1").Airs[0].Climate!.DewPoint);
    }

    [Fact]
    public void Bay_SilentForHalfAnHour_HasNoClimateButItsLastReading()
    {
        BayReport report = BayReport.Of(new TestShop().Steady(0, 1).Until(1.52).Shop, "bay-1");
        Assert.Null(report.Airs[0].Climate);
        Assert.Equal(ProbeState.Silent, report.Probes[0].State);
        Assert.Equal(50, report.Probes[0].Air!.Value.HumidityPct);
    }

    [Fact]
    public void Panel_HotterThanAnythingReckonedWith_IsNoFault()
    {
        TestShop shop = new TestShop(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]).Read(1, 20, 50).ReadPanel(1, 180);
        Assert.Equal(ClimateRange.HottestPanelC, BayReport.Of(shop.Shop, "bay-1").Airs[0].Climate!.Panel!.Value.Degrees);
    }

    [Fact]
    public void Bay_WithAProbeInTheCabin_ReportsItsAirToo()
    {
        var plan = new BayPlan(
            "bay-1", 1013.25, "hall", [],
            [new ProbeMount(TestShop.Air("air"), null, Place.Outside), new ProbeMount(TestShop.Air("cabin"), null, Place.Cabin)]);
        var shop = Shop.Opening(new ShopPlan("shop", OpeningHours.Always(TimeZoneInfo.Utc), default, [plan]), [], TestShop.Start);
        Assert.Equal([Place.Outside, Place.Cabin], BayReport.Of(shop, "bay-1").Airs.Select(a => a.Place));
    }

    private static TestShop TwoPanels() =>
        new TestShop(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1"), TestShop.Panel("panel-2")]).Steady(0, 1);
}
