using CureWatch.Curing;
using CureWatch.Handover;

namespace CureWatch.Tests.Bays;

/// <summary>What was told and was not done after all.</summary>
public class WithdrawnTests
{
    private const double Minute = 1 / 60.0;

    [Fact]
    public void Withdrawn_AtOnce_IsAsIfItHadNeverBeenTold()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied, id: "a").Tap(1 + Minute, Did.Withdrawn, id: "b", corrects: "a");
        Assert.Empty(shop.Report.Surfaces[0].Coats);
        Assert.Equal([HoldKind.NotApplied], shop.HoldKinds);
        Assert.Equal(2, shop.Report.Told.Length);
    }

    [Theory]
    [InlineData(Did.Wetted)]
    [InlineData(Did.Washed)]
    [InlineData(Did.Levelled)]
    public void Withdrawn_Late_IsHeldUntilSomebodyHasLooked(Did did)
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 2).Tap(2, did, id: "a").Steady(2.01, 2.2);
        shop.Tap(2.2, Did.Withdrawn, corrects: "a");
        Hold hold = Assert.Single(shop.Holds, h => h.Kind == HoldKind.ReportedLate);
        Assert.Contains("taken back", hold.Text.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain(HoldKind.Wetted, shop.HoldKinds);
        Assert.DoesNotContain(HoldKind.ReportedLate, shop.Steady(2.21, 2.3).Tap(2.3, Did.Inspected, found: Found.Clear).HoldKinds);
    }

    [Fact]
    public void CorrectionThatIsTakenBack_LeavesWhatItHadReplaced()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied, id: "a").Tap(0.98, Did.Applied, id: "b", reportedHour: 1.01, corrects: "a");
        Assert.Equal(TestShop.At(0.98), Assert.Single(shop.Report.Surfaces[0].Coats).Coat.AppliedAt);
        shop.Tap(1.02, Did.Withdrawn, id: "c", corrects: "b");
        Assert.Equal(TestShop.At(1), Assert.Single(shop.Report.Surfaces[0].Coats).Coat.AppliedAt);
        shop.Tap(1.03, Did.Withdrawn, corrects: "c");
        Assert.Equal(TestShop.At(0.98), Assert.Single(shop.Report.Surfaces[0].Coats).Coat.AppliedAt);
    }

    [Fact]
    public void Withdrawn_OfNothingAnybodyTold_ChangesNothing()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied, id: "a").Tap(1.01, Did.Withdrawn, corrects: "z");
        Assert.Single(shop.Report.Surfaces[0].Coats);
    }
}
