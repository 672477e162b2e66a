using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

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

    [Fact]
    public void AppliedTwice_IsOneCoatOnANewClock()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.2, Did.Applied);
        Coat coat = Assert.Single(shop.Report.Surfaces[0].Coats).Coat;
        Assert.Equal((TestShop.At(1), TestShop.At(1.2), TestShop.At(1.2)), (coat.StartedAt, coat.FirstWipeAt, coat.LastWipeAt));
    }

    /// <summary>Two buttons, or two goes: the deadline had gone with the second, by as long as the first took to wipe on.</summary>
    [Fact]
    public void AppliedTwiceWithinAMoment_IsOneWipe_AndLevelByCountsFromItsFirst()
    {
        static TestShop Once() => new TestShop().Steady(0, 1).Tap(1, Did.Applied, startedHour: 0.95);
        TestShop once = Once(), twice = Once().Tap(1.01, Did.Applied);
        Coat coat = Assert.Single(twice.Report.Surfaces[0].Coats).Coat;
        Assert.Equal((TestShop.At(0.95), TestShop.At(0.95), TestShop.At(1.01)), (coat.StartedAt, coat.FirstWipeAt, coat.LastWipeAt));
        Assert.Null(coat.ReworkedAt);
        Assert.True(twice.Window(WindowStage.LevelOff).ClosesAt!.Earliest <= once.Window(WindowStage.LevelOff).ClosesAt!.Earliest);
        DateTimeOffset opens = once.Window(WindowStage.LevelOff).OpensAt.Likely!.Value;
        Assert.Equal(opens.AddHours(0.01), twice.Window(WindowStage.LevelOff).OpensAt.Likely!.Value, TimeSpan.FromSeconds(1));
    }

    [Fact]
    public void ReWetTwiceWithinAMoment_IsOneWipe_AndLevelByCountsFromItsFirst()
    {
        static TestShop Once() => new TestShop().Steady(0, 1).Tap(1, Did.Applied).Steady(1.01, 1.1).Tap(1.1, Did.Reworked, how: How.ReWet);
        TestShop once = Once(), twice = Once().Tap(1.12, Did.Reworked, how: How.ReWet), anew = Once().Tap(1.15, Did.Reworked, how: How.ReWet);
        Assert.True(twice.Window(WindowStage.LevelOff).ClosesAt!.Earliest <= once.Window(WindowStage.LevelOff).ClosesAt!.Earliest);
        Assert.True(anew.Window(WindowStage.LevelOff).ClosesAt!.Earliest > once.Window(WindowStage.LevelOff).ClosesAt!.Earliest);
    }

    [Fact]
    public void LevelledWithoutApplied_IsNoCoat_UntilTheApplicationIsTold()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1.05, Did.Levelled).Steady(1.1, 1.2);
        Assert.Equal([HoldKind.NotApplied], shop.HoldKinds);
        shop.Tap(1, Did.Applied, reportedHour: 1.2);
        Assert.Equal(TestShop.At(1.05), Assert.Single(shop.Report.Surfaces[0].Coats).Coat.LevelledAt);
    }

    [Fact]
    public void SecondLayerBeforeTheFirst_IsHeldOnTheSecond_ThoughTheFirstFollows()
    {
        TestShop shop = new TestShop(layers: 2).Steady(0, 1).Tap(1, Did.Applied, 2).Tap(1.05, Did.Levelled, 2).Steady(1.1, 3);
        shop.Tap(3, Did.Applied, 1).Tap(3.05, Did.Levelled, 1).Steady(3.1, 4);
        Hold hold = Assert.Single(shop.Holds, h => h.Kind == HoldKind.OutOfWindow);
        Assert.Equal(2, hold.Layer);
        Assert.Contains("no layer 1 under it", hold.Text.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain(HoldKind.OutOfWindow, shop.Tap(4, Did.Inspected, 2, found: Found.Clear).HoldKinds);
    }

    [Fact]
    public void CorrectionOfATapThatLaterOnesRelyOn_TakesThemAlong_AndIsHeldUntilLookedAt()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied, id: "a").Tap(1.05, Did.Levelled).Steady(1.1, 1.2);
        shop.Tap(1, Did.PanelWiped, reportedHour: 1.2, corrects: "a");
        Assert.Empty(shop.Report.Surfaces[0].Coats);
        Assert.Equal([HoldKind.NotApplied, HoldKind.ReportedLate], shop.HoldKinds);
        shop.Tap(0.98, Did.Applied, id: "b", reportedHour: 1.2);
        Assert.Equal(TestShop.At(1.05), Assert.Single(shop.Report.Surfaces[0].Coats).Coat.LevelledAt);
        Assert.Equal(4, shop.Report.Told.Length);
    }

    // The water was told of, and corrected away hours later: neither its hold nor the restart of keep-dry stood any more, and no reason to look.
    [Theory]
    [InlineData(Did.PanelWiped)]
    [InlineData(Did.Wetted)]
    public void WaterThatIsCorrectedAway_IsHeldUntilLookedAt(Did into)
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 4).Tap(4, Did.Wetted, id: "w").Steady(4.1, 8);
        var other = new Tap("c", TestShop.At(8), TestShop.At(8), into == Did.Wetted ? "roof" : "bonnet", into, null, null, null, null, null, null, null, null, null, "w");
        shop.Take(new Message.Tapped("job-1", other));
        Assert.Contains(HoldKind.ReportedLate, shop.HoldKinds);
        Assert.DoesNotContain(HoldKind.ReportedLate, shop.Tap(8.1, Did.Inspected, found: Found.Clear).HoldKinds);
    }

    // 160 for 16.0: the car was held for heat that never was.
    [Fact]
    public void TemperatureThatIsCorrected_HoldsNothing()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 2).Tap(2, Did.Measured, panelC: 160, id: "m");
        Assert.Contains(HoldKind.Heat, shop.HoldKinds);
        Assert.DoesNotContain(HoldKind.Heat, shop.Tap(2, Did.Measured, panelC: 16, corrects: "m", reportedHour: 2.1).HoldKinds);
    }

    // "Find that layer clear without it", says the hold; then nobody waits for it any more.
    [Fact]
    public void LayerThatIsWaived_IsWarnedOfNoMore()
    {
        TestShop shop = new TestShop(layers: 2).Steady(0, 1).Tap(1, Did.Applied, 1).Tap(1.05, Did.Levelled, 1).Steady(1.1, 3).Tap(3, Did.Inspected, 2, found: Found.Clear).Steady(3.1, 9);
        Assert.Empty(shop.Warnings(CureWatch.Warnings.WarningKind.RecoatClosing));
        Assert.Empty(shop.Warnings(CureWatch.Warnings.WarningKind.RecoatMissed));
        Assert.False(Assert.Single(shop.Report.Surfaces[0].Coats).AwaitsLayer);
    }

    [Fact]
    public void PolishedOff_TakesAlongWhatLiesOverIt_OnThatSectionAlone()
    {
        TestShop shop = TwoLayersOnTwoSections().Tap(4, Did.Reworked, 1, 2, how: How.PolishedOff);
        Assert.Equal([(1, 1), (2, 1)], shop.Report.Surfaces[0].Coats.Where(c => c.Coat.EndedAt is null).Select(c => (c.Coat.Layer, c.Coat.Section)));
        Assert.Equal([(1, 2), (2, 2)], shop.Holds.Where(h => h.Kind == HoldKind.NotApplied).Select(h => (h.Layer!.Value, h.Section!.Value)));
    }

    [Fact]
    public void TopPolishedOff_LeavesTheLayerBelowAwaitingOne()
    {
        TestShop shop = TwoLayersOnTwoSections().Tap(4, Did.Reworked, 2, how: How.PolishedOff);
        Assert.All(shop.Report.Surfaces[0].Coats.Where(c => c.Coat.Layer == 1), c => Assert.True(c.AwaitsLayer));
    }

    [Fact]
    public void ReworkWithoutALayer_IsOfTheOutermost()
    {
        TestShop shop = TwoLayersOnTwoSections().Tap(4, Did.Reworked, section: 1, how: How.ReWet);
        Assert.Equal([(2, 1)], shop.Report.Surfaces[0].Coats.Where(c => c.Coat.LevelledAt is null).Select(c => (c.Coat.Layer, c.Coat.Section)));
    }

    [Fact]
    public void HandoverWhileACoatFlashes_IsHeld_AndOnceTheCarHasLeftNobodyIsCalled()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Until(1.01);
        Assert.False(shop.Report.Ruling.IsReady);
        Assert.Contains(shop.Holds, h => h is { Kind: HoldKind.NotLevelled, Surface: "bonnet", Layer: 1 });
        shop.Take(new Message.CarLeft("job-1", TestShop.At(1.02))).Steady(1.03, 2);
        Assert.DoesNotContain(shop.Shop.Warnings.Values, w => w.Subject.Kind == WarningKind.LevelMissed || (w.Subject.Job is not null && w.ClearedAt is null));
        Assert.Contains(HoldKind.NotLevelled, shop.HoldKinds);
    }

    private static TestShop TwoLayersOnTwoSections() => new TestShop(layers: 2, sections: 2).Steady(0, 1).Tap(1, Did.Applied, 1).Tap(1.05, Did.Levelled, 1)
        .Steady(1.1, 3).Tap(3, Did.Applied, 2).Tap(3.05, Did.Levelled, 2).Steady(3.1, 4);
}
