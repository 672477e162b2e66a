using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;

namespace CureWatch.Tests.Bays;

/// <summary>Taps that say less, or other, than they should: taken down as told, and never read as good news.</summary>
public class OddTapTests
{
    [Theory]
    [InlineData("nowhere", 8)]
    [InlineData("bonnet", double.NaN)]
    [InlineData("bonnet", 1e9)]
    [InlineData("bonnet", -1e9)]
    public void PanelReadByHand_OfASurfaceNobodyKnows_OrAtNoTemperature_IsTakenDown(string surface, double panelC)
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Steady(1.1, 1.2);
        shop.Take(new Message.Tapped("job-1", new Tap("odd", TestShop.At(1.2), TestShop.At(1.2), surface, Did.Measured, PanelC: panelC)));
        Assert.Equal("odd", shop.Report.Told[^1].Id);
    }

    [Fact]
    public void Tap_ToldTwice_CountsOnce()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied, id: "a").Tap(1.2, Did.Applied, id: "a");
        Assert.Single(shop.Report.Told);
        Assert.Equal(TestShop.At(1), shop.Report.Surfaces[0].Coats[0].Coat.AppliedAt);
    }

    [Fact]
    public void Tap_OfAJobNobodyOpened_IsNothing()
    {
        TestShop shop = new();
        shop.Take(new Message.Tapped("job-9", new Tap("a", TestShop.At(1), TestShop.At(1), null, Did.Applied)));
        Assert.Empty(shop.Report.Told);
    }

    [Fact]
    public void Inspection_ThatSaysNotWhatWasFound_LiftsNoHold()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Steady(1.1, 2).Tap(2, Did.Inspected);
        Assert.Contains(HoldKind.NotLevelled, shop.HoldKinds);
        Assert.Equal(2, shop.Report.Told.Length);
    }
}
