using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Tests.Bays;

namespace CureWatch.Tests.Reports;

/// <summary>A car that came in cold, in a bay that is measured for the first day: it is planned as it will be when it is coated, not as wet as it stands there.</summary>
public class ColdCarPlanTests
{
    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    [InlineData(11.9)]
    public void ColdCar_IsPlanned_ThoughItsPanelsNowWouldNeverCure(double panelC)
    {
        CarDay cold = Planned(panelC, out DayPlan plan);

        Assert.NotNull(cold.Work.BeginsAt);
        Assert.NotNull(cold.Work.ReadyAt?.Latest);
        Assert.NotNull(cold.Asked.EarliestAt);
        Assert.DoesNotContain(cold.Asked.Reasons, r => r.Kind == StartReasonKind.NeverDry);
        Assert.Contains(plan.Assumed, a => a.ToString().Contains("What came in cold is reckoned within 3 K of that air", StringComparison.Ordinal));
    }

    [Fact]
    public void ColdCar_IsNeverPromisedSoonerThanAWarmOne()
    {
        CarDay warm = Planned(20, out DayPlan plan);
        Assert.DoesNotContain(plan.Assumed, a => a.ToString().Contains("came in cold", StringComparison.Ordinal));
        Assert.All([3.0, 8.0, 11.9, 15.5], c => Assert.True(Planned(c, out _).Work.ReadyAt!.Latest >= warm.Work.ReadyAt!.Latest));
    }

    /// <summary>In air of 20 °C and 60 %, which condenses at 12 °C.</summary>
    private static CarDay Planned(double panelC, out DayPlan plan)
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        for (int minute = 0; minute <= 30; minute++)
        {
            shop.Read(minute / 60.0, 20, 60).ReadPanel(minute / 60.0, panelC);
        }

        plan = DayPlan.Of(shop.Shop);
        return Assert.Single(plan.Bays.Single(b => b.Bay == "bay-1").Cars);
    }
}
