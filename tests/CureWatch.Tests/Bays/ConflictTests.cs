using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.TimeWindows;
using CureWatch.Warnings;
using static CureWatch.Tests.Bays.SharedAir;

namespace CureWatch.Tests.Bays;

/// <summary>A coat in bay-1 from 9 o'clock, and what is done beside it in the air it shares.</summary>
public class ConflictTests
{
    [Fact]
    public void PlannedWash_BesideAnOpenCoat_IsWarnedOfAQuarterOfAnHourBefore_AndIsOverWithIt()
    {
        TestShop shop = Open().Planned(HarmfulWork.Washing, 3, 3.5, hour: 1.1).Until(2.74);
        Assert.Empty(Told(shop));
        Warning warning = Assert.Single(Told(shop.Until(3.2)));
        Assert.Equal((TestShop.At(2.75), TimeSpan.FromMinutes(15), "bay-1", "job-1"), (warning.RaisedAt, warning.Lead, warning.Subject.Bay, warning.Subject.Job));
        Assert.StartsWith("Washing in bay-2 11:00 to 11:30 harms bonnet of job-1 in bay-1: it has to stay dry until ", warning.Detail?.ToString(), StringComparison.Ordinal);
        Assert.Equal(TestShop.At(3.5), Assert.Single(Told(shop.Until(4))).ClearedAt);
        Assert.Null(shop.Shop.ConflictsDueAt);
    }

    [Fact]
    public void Work_InAnAirOfItsOwn_WarnsNobody() =>
        Assert.Empty(Told(new TestShop().Steady(0, 1).Tap(1, Did.Applied).Planned(HarmfulWork.Washing, 3, 3.5, hour: 1.1).Until(4)));

    [Fact]
    public void Work_MovedOrDropped_IsOverAtOnce()
    {
        TestShop moved = Open().Planned(HarmfulWork.Washing, 1.3, 2, hour: 1.1).Planned(HarmfulWork.Washing, 30, 31, hour: 1.2).Until(4);
        Assert.Equal(TestShop.At(1.2), Assert.Single(Told(moved)).ClearedAt);
        TestShop dropped = Open().Planned(HarmfulWork.Washing, 1.3, 2, hour: 1.1).Take(new Message.WorkDropped("work-1", TestShop.At(1.15))).Until(4);
        Assert.Equal(TestShop.At(1.15), Assert.Single(Told(dropped)).ClearedAt);
        Assert.Empty(dropped.Shop.Planned);
    }

    [Fact]
    public void WashToldNextDoor_IsWarnedOfAtOnce_UntilThatCarIsDried()
    {
        TestShop shop = Open().Car("job-2", "bay-2", 1.1).Told("job-2", 2, Did.Washed).Until(2.1);
        Assert.Equal(TestShop.At(2), Assert.Single(Told(shop)).RaisedAt);
        Assert.Equal(TestShop.At(2.2), Assert.Single(Told(shop.Told("job-2", 2.2, Did.Dried).Until(3))).ClearedAt);
    }

    // The day plan showed it, and nobody was warned.
    [Fact]
    public void WashBesideACoat_WhoseOwnAirNobodyMeasures_IsWarnedOf()
    {
        TestShop shop = Hall().Steady(0, 1);
        ShopPlan plan = shop.Shop.Plan;
        shop.Take(new Message.PlanChanged(plan with { Bays = [plan.Bays[0], plan.Bays[1] with { Probes = [] }] }, TestShop.At(1)));
        shop.Car("job-2", "bay-2", 1.1).Told("job-2", 1.2, Did.Applied).Planned(HarmfulWork.Washing, 2, 2.5, hour: 1.3, bay: "bay-1").Until(2.1);
        Warning warning = Assert.Single(Told(shop));
        Assert.Equal(("bay-2", "job-2"), (warning.Subject.Bay, warning.Subject.Job));
    }

    [Fact]
    public void WashToldNextDoor_WithoutAnEnd_IsOverAfterHalfAnHour() =>
        Assert.Equal(TestShop.At(2.5), Assert.Single(Told(Open().Car("job-2", "bay-2", 1.1).Told("job-2", 2, Did.Washed).Until(4))).ClearedAt);

    [Fact]
    public void WashOfTheCarItself_IsAnotherMatter() => Assert.Empty(Told(Open().Tap(2, Did.Washed).Until(2.6)));

    [Fact]
    public void CoatBegunBesideWorkThatGoesOn_IsWarnedOfWithItsFirstTap() => Assert.Equal(
        TestShop.At(1), Assert.Single(Told(Hall().Steady(0, 1).Planned(HarmfulWork.Sanding, 0.5, 1.5, hour: 0.1).Tap(1, Did.Applied).Until(1.2))).RaisedAt);

    /// <summary>Polishing next door throws dust until the coat takes another, and matters no more after that; spraying water still does.</summary>
    [Fact]
    public void Dust_MattersUntilTouchDry_WaterUntilKeepDryEnds()
    {
        static TestShop Day(HarmfulWork work, double from) => Levelled().Planned(work, from, from + 0.5, hour: 1.06).Steady(1.1, from + 0.6);
        DateTimeOffset opens = Levelled().Steady(1.1, 2.5).Window(WindowStage.Recoat).OpensAt.Latest!.Value;
        double touchDry = (opens - TestShop.Start).TotalHours;
        Assert.InRange(touchDry, 2, 3);
        Assert.Single(Told(Day(HarmfulWork.Compounding, touchDry - 0.1)));
        Assert.Empty(Told(Day(HarmfulWork.Compounding, touchDry + 0.35)));
        Assert.Single(Told(Day(HarmfulWork.Washing, touchDry + 0.35)));
    }

    [Fact]
    public void Lamp_BesideAFreshCoat_IsAFireHazard_NotAfterItIsLevelled()
    {
        TestShop fresh = Hall().Steady(0, 1).Car("job-2", "bay-2", 0.5).Told("job-2", 0.9, Did.LampOn).Tap(1, Did.Applied).Until(1.01);
        Assert.Contains("catches fire", Assert.Single(Told(fresh)).Detail?.ToString(), StringComparison.Ordinal);
        Assert.Empty(Told(Levelled().Car("job-2", "bay-2", 1.2).Told("job-2", 1.3, Did.LampOn).Until(1.5)));
    }

    [Fact]
    public void Warning_IsGivenOnce_HoweverLongItGoesOn() =>
        Assert.Single(Told(Open().Planned(HarmfulWork.DoorsOpen, 2, 9, hour: 1.1).Steady(1.2, 5).Until(8)));

    [Fact]
    public void CarThatLeaves_LeavesNoWarning()
    {
        TestShop shop = Open().Planned(HarmfulWork.DoorsOpen, 1.2, 9, hour: 1.1).Take(new Message.CarLeft("job-1", TestShop.At(2))).Until(3);
        Assert.Equal(TestShop.At(2), Assert.Single(Told(shop)).ClearedAt);
    }

    // Whatever wakes it in between, and however often: the same warnings at the same instants.
    [Fact]
    public void Warnings_DoNotDependOnWhoAsksInBetween()
    {
        static TestShop Day(Func<TestShop, double, TestShop> until) => until(until(until(
            Open().Car("job-2", "bay-2", 1.05).Planned(HarmfulWork.Sanding, 1.6, 2.2, 1.1), 1.9).Told("job-2", 1.95, Did.Washed), 4)
            .Planned(HarmfulWork.DoorsOpen, 5, 6, 4.1, "work-2"), 8);
        TestShop jumps = Day((shop, hour) => shop.Until(hour)), minutes = Day((shop, hour) =>
        {
            for (double at = (shop.Shop.Now - TestShop.Start).TotalHours; at < hour; at += 1 / 60.0)
            {
                shop.Until(at);
            }

            return shop.Until(hour);
        });
        Assert.Equal(3, Told(jumps).Count());
        Assert.Equal(Told(jumps), Told(minutes));
    }

    private static TestShop Open() => Hall().Steady(0, 1).Tap(1, Did.Applied);

    private static TestShop Levelled() => Open().Tap(1.05, Did.Levelled);

    private static IEnumerable<Warning> Told(TestShop shop) => shop.Warnings(WarningKind.AirspaceConflict);
}
