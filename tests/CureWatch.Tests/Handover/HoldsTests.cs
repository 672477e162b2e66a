using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Tests.Bays;
using static CureWatch.Curing.Did;

namespace CureWatch.Tests.Handover;

/// <summary>Every kind of hold: it appears, says on which surface and layer, and only what may lift it does.</summary>
public class HoldsTests
{
    private const double Levelled = 1 + (4 / 60.0);

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Hold_Appears_NamesWhere_AndIsLiftedByClearAlone(HoldKind kind, int layer)
    {
        TestShop shop = Held(kind);
        Hold hold = Assert.Single(shop.Holds, h => h.Kind == kind);
        Assert.Equal(("bonnet", layer), (hold.Surface, hold.Layer ?? 1));
        Assert.Contains("inspect", hold.Text.ToString(), StringComparison.Ordinal);
        Assert.False(shop.Report.Ruling.IsReady);

        shop.Tap(50, Inspected, found: Found.Dust).Tap(50.1, Inspected, found: Found.Streak);
        Assert.Contains(kind, shop.HoldKinds);
        shop.Tap(50.2, Inspected, found: Found.Clear);
        Assert.Empty(shop.Holds);
        Assert.True(shop.Report.Ruling.IsReady);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Hold_IsNotLiftedByClear_OfAnotherLayerOrFromBefore(HoldKind kind, int layer)
    {
        TestShop shop = Held(kind, clearBefore: true);
        Assert.Contains(kind, shop.HoldKinds);
        shop.Tap(50, Inspected, layer: layer == 1 ? 2 : 1, found: Found.Clear);
        Assert.Contains(kind, shop.HoldKinds);
    }

    public static TheoryData<HoldKind, int> Kinds => new()
    {
        { HoldKind.NotLevelled, 1 },
        { HoldKind.LevelMissed, 1 },
        { HoldKind.OutOfWindow, 2 },
        { HoldKind.Wetted, 1 },
        { HoldKind.Condensation, 1 },
        { HoldKind.Heat, 1 },
        { HoldKind.Unwatched, 1 },
        { HoldKind.ReportedLate, 1 },
        { HoldKind.Inspection, 1 },
    };

    [Fact]
    public void KeepDry_IsLiftedByTimeAlone()
    {
        TestShop shop = Coated().Tap(2, Inspected, found: Found.Clear);
        Hold hold = Assert.Single(shop.Holds);
        Assert.Equal((HoldKind.KeepDry, "bonnet", 1, 1), (hold.Kind, hold.Surface, hold.Layer, hold.Section));
        Assert.Empty(Watched(shop, 2.5, 40).Holds);
    }

    [Fact]
    public void NotApplied_IsLiftedByApplying()
    {
        TestShop shop = Watched(Quick(layers: 2), 0, 1);
        Assert.Equal([(HoldKind.NotApplied, 1), (HoldKind.NotApplied, 2)], shop.Holds.Select(h => (h.Kind, h.Layer!.Value)));
        Assert.Equal((HoldKind.NotApplied, 2), Assert.Single(shop.Tap(1, Applied).Holds.Where(h => h.Kind == HoldKind.NotApplied).Select(h => (h.Kind, h.Layer!.Value))));
    }

    [Theory]
    [InlineData(1.5, HoldKind.OutOfWindow)]
    [InlineData(4, null)]
    [InlineData(9, HoldKind.OutOfWindow)]
    public void SecondLayer_OutsideItsWindow_IsHeldOnTheSecondLayer(double hour, HoldKind? expected)
    {
        TestShop shop = Recoated(hour);
        Assert.Equal(expected is null ? [] : [(expected.Value, 2)], shop.Holds.Select(h => (h.Kind, h.Layer!.Value)));
    }

    [Fact]
    public void SecondLayer_OverOneNeverLevelled_IsHeldOnTheFirst()
    {
        TestShop shop = Watched(Quick(layers: 2), 0, 1).Tap(1, Applied);
        Watched(shop, 1.2, 4).Tap(4, Applied, layer: 2).Tap(4.07, Did.Levelled, layer: 2);
        Watched(shop, 4.2, 45);
        Assert.Equal([(HoldKind.NotLevelled, 1), (HoldKind.LevelMissed, 1)], shop.Holds.Select(h => (h.Kind, h.Layer!.Value)));
        Assert.Empty(shop.Tap(50, Inspected, layer: 1, found: Found.Clear).Holds);
    }

    [Fact]
    public void SecondLayer_WithNoneUnderIt_IsHeld()
    {
        TestShop shop = Watched(Quick(layers: 2), 0, 1).Tap(1, Applied, layer: 2).Tap(Levelled, Did.Levelled, layer: 2);
        Watched(shop, 1.2, 45);
        Assert.Equal([(HoldKind.OutOfWindow, 2), (HoldKind.NotApplied, 1)], shop.Holds.Select(h => (h.Kind, h.Layer!.Value)));
    }

    [Theory]
    [InlineData(How.Wiped, new HoldKind[0])]
    [InlineData(How.ReWet, new[] { HoldKind.NotLevelled, HoldKind.LevelMissed })]
    [InlineData(How.PolishedOff, new[] { HoldKind.NotApplied })]
    public void MissedLevelling_Reworked_IsWhatThatReworkLeaves(How how, HoldKind[] expected)
    {
        TestShop shop = Held(HoldKind.LevelMissed).Tap(46, Reworked, how: how);
        Assert.Equal(expected, Watched(shop, 46.2, 80).HoldKinds);
    }

    [Fact]
    public void Rewet_AndLevelledInTime_IsNoHold()
    {
        TestShop shop = Held(HoldKind.LevelMissed).Tap(46, Reworked, how: How.ReWet).Tap(46 + (4 / 60.0), Did.Levelled);
        Assert.Empty(Watched(shop, 46.2, 80).Holds);
    }

    [Fact]
    public void LevelledBeforeItCanHaveFlashed_IsOutOfItsWindow()
    {
        TestShop shop = Watched(Quick(), 0, 1).Tap(1, Applied).Tap(1 + (20 / 3600.0), Did.Levelled);
        Assert.Equal([HoldKind.OutOfWindow], Watched(shop, 1.2, 45).HoldKinds);
    }

    [Fact]
    public void WashedBeforeItMay_IsOutOfItsWindow_ThoughKeepDryIsOver()
    {
        TestShop shop = Watched(Coated(), 1.2, 40).Tap(40, Washed);
        Assert.Equal([HoldKind.OutOfWindow], shop.HoldKinds);
        Assert.Empty(shop.Tap(41, Inspected, found: Found.Clear).Holds);
    }

    [Fact]
    public void ColdPanelReadByHand_InKeepDry_IsCondensation() =>
        Assert.Contains(HoldKind.Condensation, Watched(Coated(), 1.2, 3).Tap(3, Measured, panelC: 8).HoldKinds);

    [Theory]
    [InlineData(70, false)]
    [InlineData(70.1, true)]
    public void Heat_IsAHold_AboveTheSheetsLimit(double panelC, bool isHeld) =>
        Assert.Equal(isHeld, Watched(Coated(), 1.2, 3).Tap(3, Measured, panelC: panelC).HoldKinds.Contains(HoldKind.Heat));

    [Fact]
    public void Section_NotLevelled_IsHeldAlone()
    {
        TestShop shop = Watched(Quick(sections: 2), 0, 1).Tap(1, Applied, section: 1).Tap(1.01, Applied, section: 2).Tap(Levelled, Did.Levelled, section: 2);
        Assert.Equal([(HoldKind.NotLevelled, 1), (HoldKind.LevelMissed, 1)], Watched(shop, 1.2, 45).Holds.Select(h => (h.Kind, h.Section!.Value)));
    }

    [Theory]
    [InlineData(1, true)]
    [InlineData(2, false)]
    [InlineData(null, false)]
    public void LateAct_OnALayerNobodyNamed_IsLiftedByALookAtTheOutermost(int? clearedLayer, bool isHeld)
    {
        TestShop shop = Watched(Watched(Quick(layers: 2), 0, 1).Tap(1, Applied).Tap(Levelled, Did.Levelled), 1.2, 3).Tap(3, Applied, layer: 2);
        shop = Watched(Watched(shop, 3, 4).Tap(3.07, Did.Levelled, reportedHour: 4), 4.2, 6).Tap(6, Inspected, layer: clearedLayer, found: Found.Clear);
        Assert.Equal(isHeld, shop.HoldKinds.Contains(HoldKind.ReportedLate));
    }

    private static TestShop Held(HoldKind kind, bool clearBefore = false)
    {
        TestShop shop = kind switch
        {
            HoldKind.NotLevelled or HoldKind.LevelMissed => Watched(Quick(), 0, 1).Tap(1, Applied),
            HoldKind.OutOfWindow => Watched(Quick(layers: 2), 0, 1).Tap(1, Applied).Tap(Levelled, Did.Levelled),
            _ => Coated(),
        };
        shop = clearBefore ? shop.Tap(Levelled, Inspected, found: Found.Clear) : shop;
        return kind switch
        {
            HoldKind.LevelMissed => Watched(shop, 1.2, 2).Tap(2, Did.Levelled) is var s ? Watched(s, 2.2, 45) : shop,
            HoldKind.OutOfWindow => Recoat(shop, 9),
            HoldKind.Wetted => Watched(Watched(shop, 1.2, 3).Tap(3, Wetted).Tap(3.5, Dried), 3.6, 45),
            HoldKind.Condensation => Watched(Watched(Watched(shop, 1.2, 3), 3, 3.5, humidityPct: 100), 3.6, 45),
            HoldKind.Heat => Watched(Watched(shop, 1.2, 3).Tap(3, Measured, panelC: 95), 3.2, 45),
            HoldKind.Unwatched => Watched(Watched(shop, 1.2, 3).Tap(3, Moved, toBay: "store").Tap(4, Moved, toBay: "bay-1"), 4, 45),
            HoldKind.ReportedLate => Watched(Watched(shop, 1.2, 3).Tap(1.05, Did.Levelled, reportedHour: 3), 3.2, 45),
            HoldKind.Inspection => Watched(shop, 1.2, 45).Tap(45, Inspected, found: Found.HighSpot),
            _ => Watched(shop, 1.2, 45),
        };
    }

    private static TestShop Coated() => Watched(Quick(), 0, 1).Tap(1, Applied).Tap(Levelled, Did.Levelled);

    private static TestShop Recoated(double hour) => Recoat(Watched(Quick(layers: 2), 0, 1).Tap(1, Applied).Tap(Levelled, Did.Levelled), hour);

    private static TestShop Recoat(TestShop shop, double hour) =>
        Watched(Watched(shop, 1.2, hour).Tap(hour, Applied, layer: 2).Tap(hour + (4 / 60.0), Did.Levelled, layer: 2), hour + 0.1, 45);

    /// <summary>A shop with a probe that tells every ten minutes: enough for these days, and quick.</summary>
    private static TestShop Quick(int layers = 1, int sections = 1) =>
        new(TestShop.Paint(), layers, sections, probes: [TestShop.Air("air-1") with { Every = TimeSpan.FromMinutes(10) }]);

    private static TestShop Watched(TestShop shop, double fromHour, double toHour, double humidityPct = 50)
    {
        for (double hour = fromHour; hour <= toHour + 1e-9; hour += 1 / 6.0)
        {
            shop.Read(hour, 20, humidityPct);
        }

        return shop;
    }
}
