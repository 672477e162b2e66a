using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;

namespace CureWatch.Tests.Bays;

/// <summary>What is next and whether somebody can start are one answer.</summary>
public class NextAgainstTests
{
    private const double Minute = 1 / 60.0;

    [Fact]
    public void Apply_OnWhatWasNotWipedDown_SaysNotYet()
    {
        ToldAct next = new TestShop().Steady(0, 1).Report.Next[0];
        Assert.Equal("bonnet: apply paint when it is ready. Not yet: Bonnet was not wiped down.", next.Text.ToString());
        Assert.Equal([StartReasonKind.NotWiped], next.Against.Select(r => r.Kind));
    }

    [Fact]
    public void Apply_InAirNobodyMayCoatIn_SaysNotYet()
    {
        ToldAct next = new TestShop().Steady(0, 1, humidityPct: 95).Tap(1, Did.PanelWiped).Steady(1 + Minute, 1.4, humidityPct: 95).Report.Next[0];
        Assert.Contains(". Not yet: ", next.Text.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain(" now", next.Text.ToString(), StringComparison.Ordinal);
    }

    // Whatever the climate does while the first section flashes: nobody is sent to a section that cannot be begun past one that waits to be levelled.
    [Theory]
    [InlineData(50, ActKind.Apply)]
    [InlineData(95, ActKind.Level)]
    public void Apply_ThatCannotBeBegun_StandsBehindWhatFlashes(double humidityPct, ActKind first)
    {
        TestShop shop = new TestShop(sections: 6).Steady(0, 1).Tap(1, Did.PanelWiped).Steady(1 + Minute, 1 + (2 * Minute))
            .Tap(1 + (2 * Minute), Did.Applied, section: 1).Steady(1 + (2.2 * Minute), 1 + (3 * Minute), humidityPct: humidityPct);
        ToldAct[] next = [.. shop.Report.Next.Take(2)];
        Assert.Equal(first, next[0].Act.Kind);
        Assert.Equal([1, 2], next.Select(n => n.Act.Section).Order());
        Assert.Equal(first == ActKind.Apply, next.All(n => n.Against.IsEmpty));
        Assert.Equal(first, NextActs.Of(shop.Shop, shop.Shop.Find("job-1")!, shop.Shop.Now)[0].Kind);
    }

    // Whatever the climate and however long the wipe-down is ago: nothing is said to go on now that the start would not let begin.
    [Fact]
    public void Apply_IsSaidToBeNow_OnlyWhereTheStartSaysYes()
    {
        var verdicts = new HashSet<StartVerdict>();
        foreach (double humidityPct in new[] { 40.0, 70, 90 })
        {
            foreach (double airC in new[] { 5.0, 20, 33 })
            {
                foreach (double wipedMinutes in new[] { 1.0, 15, 90 })
                {
                    double wiped = 2 - (wipedMinutes * Minute);
                    TestShop shop = new TestShop().Steady(0, wiped - Minute, airC, humidityPct).Tap(wiped, Did.PanelWiped).Steady(wiped, 2, airC, humidityPct);
                    StartVerdict verdict = StartReport.Of(shop.Shop, "job-1").Decision.Verdict;
                    ToldAct next = shop.Report.Next[0];
                    Assert.Equal(verdict == StartVerdict.Yes, next.Against.IsEmpty);
                    Assert.Equal(verdict == StartVerdict.Yes, next.Text.ToString() == "bonnet: apply paint now");
                    verdicts.Add(verdict);
                }
            }
        }

        Assert.Equal(3, verdicts.Count);
    }
}
