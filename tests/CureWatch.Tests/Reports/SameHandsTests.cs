using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Tests.Bays;
using static CureWatch.Tests.Bays.SharedAir;

namespace CureWatch.Tests.Reports;

/// <summary>One person is not in two bays at once: the plan says so of the car that is begun later.</summary>
public class SameHandsTests
{
    [Fact]
    public void CarsInTwoBays_WorkedOnAtTheSameTime_AreTold()
    {
        DayPlan plan = DayPlan.Of(Two(null).Shop);
        CarDay[] cars = [.. plan.Bays.SelectMany(b => b.Cars).OrderBy(c => c.Job.Id, StringComparer.Ordinal)];
        Assert.Equal(cars[0].Work.BeginsAt, cars[1].Work.BeginsAt);
        Assert.DoesNotContain(cars[0].Asked.Reasons, r => r.Kind == StartReasonKind.SameHands);
        StartReason told = Assert.Single(cars[1].Asked.Reasons, r => r.Kind == StartReasonKind.SameHands);
        Assert.Equal(StartWeight.Notes, told.Weight);
        Assert.StartsWith("job-1 in bay-1 is worked on at the same time, 08:30 to 08:3", told.Text.ToString(), StringComparison.Ordinal);
        Assert.Contains(plan.Assumed, a => a.ToString().StartsWith("Each bay is planned by itself", StringComparison.Ordinal));
    }

    [Fact]
    public void CarsInTwoBays_OneAfterTheOther_AreNot() => Assert.DoesNotContain(
        DayPlan.Of(Two(new Visit(TestShop.At(4), 20, null)).Shop).Bays.SelectMany(b => b.Cars).SelectMany(c => c.Asked.Reasons), r => r.Kind == StartReasonKind.SameHands);

    /// <summary>One is here and begins now; the other too, or when it comes.</summary>
    private static TestShop Two(Visit? visit) => new TestShop().Both(0, 0.5).Car("job-2", "bay-2", 0.5, visit);
}
