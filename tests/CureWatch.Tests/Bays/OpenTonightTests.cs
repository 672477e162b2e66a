using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using static CureWatch.Tests.Bays.SharedAir;

namespace CureWatch.Tests.Bays;

/// <summary>Lock-up tells of every car that has to stay dry, also where nobody measures or looks ahead. Unknown is never treated as fine.</summary>
public class OpenTonightTests
{
    // "Nothing in bay-2 has to stay dry. Nobody has to come."
    [Fact]
    public void CarInABayThatNobodyMeasures_IsTold()
    {
        TestShop shop = Hall().Steady(0, 1);
        ShopPlan plan = shop.Shop.Plan;
        shop.Take(new Message.PlanChanged(plan with { Bays = [plan.Bays[0], plan.Bays[1] with { Probes = [] }] }, TestShop.At(1)));
        TonightReport tonight = TonightReport.Of(shop.Car("job-2", "bay-2", 1.1).Told("job-2", 1.2, Did.Applied).Shop, "bay-2");
        Assert.Equal((TonightVerdict.Unknown, "Tonight: not known for job-2: nobody measures the air around what has to stay dry."), (tonight.Verdict, tonight.Headline.ToString()));
        Assert.Equal("On call: nobody has to come; look at the coats by hand first thing in the morning.", tonight.OnCall.ToString());
    }

    [Fact]
    public void SeatsInACabinThatNobodyMeasures_AreTold() => Assert.Equal(
        "Tonight: not known for job-1: nobody measures the air around what has to stay dry.",
        TonightReport.Of(new TestShop(place: Place.Cabin).Steady(0, 1).Tap(1, Did.Applied).Steady(1.1, 2).Shop, "bay-1").Headline.ToString());

    // Two probes were fine, and it said that none was heard.
    [Fact]
    public void SeatsInACabinThatIsMeasured_AreTold_ThatNobodyLooksAhead()
    {
        TestShop shop = new(place: Place.Cabin);
        ShopPlan plan = shop.Shop.Plan;
        shop.Take(new Message.PlanChanged(plan with { Bays = [plan.Bays[0] with { Probes = [plan.Bays[0].Probes[0] with { Place = Place.Cabin }] }] }, TestShop.At(0)));
        TonightReport tonight = TonightReport.Of(shop.Steady(0, 1).Tap(1, Did.Applied).Steady(1.1, 2).Shop, "bay-1");
        Assert.Equal("Tonight: not known for job-1: nothing is foretold of the air in a cabin or an engine bay.", tonight.Headline.ToString());
    }

    [Fact]
    public void CarNobodyMeasures_BesideOneThatIsForetold_IsToldToo()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled);
        var seats = new Surface("seats", Material.Fabric, null, Place.Cabin, "paint", 1, 1, 1);
        shop.Take(new Message.JobStarted(new Job("job-2", "bay-1", null, null, [seats]), TestShop.At(1.1))).Told("job-2", 1.2, Did.Applied).Steady(1.3, 3);
        TonightReport tonight = TonightReport.Of(shop.Shop, "bay-1");
        Assert.Equal(TonightVerdict.Safe, tonight.Verdict);
        Assert.Equal("Tonight: job-1 safe.", tonight.Headline.ToString());
        Assert.Contains("Not known for seats of job-2: nobody measures the air", tonight.Detail.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void EveryBayAtOnce_IsToldAsEachByItself()
    {
        Shop shop = TwoCars().Shop;
        Assert.Equal(["job-1", "job-2"], TonightReport.Of(shop).SelectMany(t => t.Cars));
        Assert.All(TonightReport.Of(shop), t => Assert.Equal($"Tonight: not known for {t.Cars[0]}: no air probe in {t.Bay} is heard.", t.Headline.ToString()));
    }

    private static TestShop TwoCars() => Hall().Steady(0, 1).Tap(1, Did.Applied).Car("job-2", "bay-2", 1.1).Told("job-2", 1.2, Did.Applied);
}
