using CureWatch.Handover;
using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Curing.Did;

namespace CureWatch.Tests.Days;

/// <summary>A base of one product under a top of another: each layer runs on its own sheet. Common practice, no source.</summary>
public class SystemTests
{
    private static readonly ProductSheet Top = TestShop.Paint(heatMaxC: 60) with
    {
        Product = "top",
        Stages =
        [
            TestShop.Row(Stage.Flash, Mechanism.Evaporation, 2 / 60.0, 4 / 60.0),
            TestShop.Row(Stage.LevelBy, Mechanism.Evaporation, 10 / 60.0),
            TestShop.Row(Stage.KeepDry, Mechanism.Cure, 24),
        ],
    };

    [Fact]
    public void EachLayer_RunsOnItsOwnSheet_AndTheLayerBelowSaysWhenTheNextMayGoOn()
    {
        TestShop shop = Coated(topHour: 3);
        Assert.Equal(TestShop.At(1.05 + 1), shop.Window(WindowStage.Recoat).OpensAt.Likely!.Value, TimeSpan.FromMinutes(1));
        Assert.Equal(WindowState.Done, shop.Window(WindowStage.Recoat).State);
        Assert.Equal(TestShop.At(1.05 + 12), shop.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value, TimeSpan.FromMinutes(1));
        Assert.Equal(TestShop.At(3.06 + 24), shop.Window(WindowStage.KeepDry, layer: 2).ClosesAt!.Likely!.Value, TimeSpan.FromMinutes(1));
        Assert.DoesNotContain(shop.Report.Surfaces[0].Coats[1].Windows, w => w.Stage is WindowStage.Recoat or WindowStage.NoWash);
        Assert.DoesNotContain(HoldKind.OutOfWindow, shop.HoldKinds);
    }

    [Fact]
    public void TheSlowestProduct_SaysWhenTheCarMayLeave()
    {
        TestShop shop = Coated(topHour: 3).Steady(4, 26);
        Assert.Equal([2], shop.Holds.Select(h => h.Layer));
        Assert.Equal(shop.Window(WindowStage.KeepDry, layer: 2).ClosesAt, shop.Report.Ruling.ReadyAt);
        shop.Steady(26, 40);
        Assert.True(shop.Report.Ruling.IsReady);
    }

    [Fact]
    public void TheTopOutsideTheWindowOfTheBase_IsAHoldOnTheTop()
    {
        Hold hold = Assert.Single(Coated(topHour: 1.5).Holds, h => h.Kind == HoldKind.OutOfWindow);
        Assert.Equal(2, hold.Layer);
        Assert.Contains("layer 1 takes it from", hold.Text.ToString());
    }

    [Theory]
    [InlineData(59, false)]
    [InlineData(61, true)] // the base alone would take 70 °C
    public void TheLowestHeatLimit_Rules(double panelC, bool isHeld)
    {
        TestShop shop = Coated(topHour: 3).Tap(3.5, Measured, panelC: panelC);
        Assert.Equal(isHeld, shop.HoldKinds.Contains(HoldKind.Heat));
    }

    private static TestShop Coated(double topHour) => new TestShop(over: Top).Steady(0, 1).Tap(1, Applied, layer: 1).Tap(1.05, Levelled, layer: 1)
        .Steady(1.1, topHour).Tap(topHour, Applied, layer: 2).Tap(topHour + 0.06, Levelled, layer: 2).Steady(topHour + 0.1, topHour + 0.4);
}
