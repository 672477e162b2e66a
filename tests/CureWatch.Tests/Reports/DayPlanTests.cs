using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.Bays.SharedAir;

namespace CureWatch.Tests.Reports;

/// <summary>Two bays that share their air, open from 8 to 18; a coat has to stay dry for some twelve hours, finishing takes 1 h 15 min.</summary>
public class DayPlanTests
{
    [Fact]
    public void Bay_IsFree_OnceItsCarIsDryBySlowBound_FinishedAndInsideHours()
    {
        TestShop shop = Open();
        DateTimeOffset dry = shop.Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value;
        Assert.True(dry > TestShop.At(12));
        BayDay bay = Bay(shop, "bay-1");
        CarDay car = Assert.Single(bay.Cars);
        Assert.Equal((true, true, true), (car.Arrival.IsHere, car.IsBegun, car.Asked.Fits));
        Assert.Equal(dry, car.Work.ReadyAt!.Latest);
        Assert.Equal(TestShop.At(25.25), bay.Free.At); // dry at night: doors at 8, 75 minutes
        Assert.Equal(("job-1", true), (bay.Free.Job, bay.Free.IsKnown));
        Assert.Equal(BayFree.Now, Bay(shop, "bay-2").Free);
    }

    [Fact]
    public void Bay_WhoseCarIsWet_IsFreeNobodyKnowsWhen()
    {
        BayDay bay = Bay(Open().Tap(2, Did.Wetted), "bay-1");
        Assert.False(bay.Free.IsKnown);
        Assert.Null(Assert.Single(bay.Cars).Work.FreesAt);
    }

    [Fact]
    public void LayersStillToGoOn_MoveTheBaysEnd()
    {
        TestShop shop = Hall().Both(0, 1).Car("job-2", "bay-2", 0.9, layers: 2);
        shop.Take(new Message.Tapped("job-2", new Tap("t", TestShop.At(1), TestShop.At(1), "roof", Did.Applied, 1)));
        CarDay car = Assert.Single(Bay(shop, "bay-2").Cars);
        LayerWork second = Assert.Single(car.Work.Layers);
        Assert.Equal((2, true), (second.Layer, car.IsBegun));
        Assert.Equal(second.DryAt!.Latest, car.Work.ReadyAt!.Latest);
    }

    [Fact]
    public void CarThatComesAfterTheWeek_IsNotPlannedYet_AndStandsInNobodysWay()
    {
        TestShop shop = Open().Car("job-2", "bay-2", 1.1, new Visit(TestShop.At(20 * 24), 20, null));
        CarDay car = Assert.Single(Bay(shop, "bay-2").Cars);
        Assert.Equal("A plan looks 7 days ahead: it is in it from Sun 17 May 08:00 on.", Assert.Single(car.Asked.Reasons).Text.ToString());
        Assert.Equal((false, true, null, null), (car.IsPlanned, car.Asked.Fits, car.Asked.EarliestAt, car.Work.FreesAt));
        Assert.True(DayPlan.Of(shop.Shop).Fits);
        Assert.Equal(BayFree.Now, Bay(shop, "bay-2").Free);
    }

    [Fact]
    public void CarThatIsExpected_IsWaitedFor_AndPlannedBehindTheOneInItsBay()
    {
        TestShop shop = Open().Car("job-2", "bay-1", 1.1, new Visit(TestShop.At(3), 20, null), promisedAt: TestShop.At(60));
        BayDay bay = Bay(shop, "bay-1");
        Assert.Equal(["job-1", "job-2"], bay.Cars.Select(c => c.Job.Id));
        CarDay next = bay.Cars[1];
        Assert.False(next.Arrival.IsHere);
        Assert.Equal((TestShop.At(3), TestShop.At(25.25), true), (next.Asked.At, next.Asked.EarliestAt, next.Asked.Fits));
        Assert.Equal([StartReasonKind.BayTaken], next.Asked.Reasons.Select(r => r.Kind));
        Assert.Equal(next.Work.FreesAt, bay.Free.At);
        Assert.Equal("job-2", bay.Free.Job);
        Assert.Equal("job-1", bay.FreeFromHere.Job);
    }

    /// <summary>Who asks whether to start, and who reads the promise and the plan, hear of the same work next door and the same car in the bay.</summary>
    [Fact]
    public void Start_OfACarInASharedAir_GoesByThePlan()
    {
        TestShop shop = Hall().Both(0, 1).Car("job-2", "bay-2", 0.5).Told("job-2", 0.9, Did.PanelWiped).Planned(HarmfulWork.Sanding, 1.1, 1.5, hour: 1, bay: "bay-1").Until(1.02);
        StartReason reason = Assert.Single(StartReport.Of(shop.Shop, "job-2").Decision.First!.Reasons, r => r.Kind == StartReasonKind.SharedAir);
        Assert.Equal((StartWeight.Waits, TestShop.At(1.5)), (reason.Weight, reason.Until!.Latest));
        Assert.Equal(TestShop.At(1.5), Assert.Single(Bay(shop, "bay-2").Cars).Work.BeginsAt);
        Assert.Equal(TestShop.At(1.5), PromiseReport.Of(shop.Shop, "job-2").BeginsAt!.Latest);
    }

    [Fact]
    public void StartNote_OnAPromise_IsThePromisesOwn_AlsoBehindAnotherCar()
    {
        TestShop shop = Open().Car("job-2", "bay-1", 1.1, promisedAt: TestShop.At(30));
        StartReason[] notes = [.. StartReport.Of(shop.Shop, "job-2").Decision.Reasons];
        DateTimeOffset? collect = PromiseReport.Of(shop.Shop, "job-2").Outlook.CollectFrom;
        Assert.True(collect > TestShop.At(30), "the car waits for the one in its bay");
        Assert.Contains(notes, r => r.Kind == StartReasonKind.BayTaken && r.Text.ToString().Contains("job-1", StringComparison.Ordinal));
        Assert.Contains(DayPlan.Of(shop.Shop).Hours.Clock(collect).ToString(), Assert.Single(notes, r => r.Kind == StartReasonKind.Promise).Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void CarThatIsExpected_CannotBeStartedYet_AndIsHereWithItsHourOrItsFirstTap()
    {
        TestShop shop = Hall().Both(0, 1).Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(3), 20, null));
        StartDecision decision = StartReport.Of(shop.Shop, "job-2").Decision;
        Assert.Contains(decision.First!.Reasons, r => r.Kind == StartReasonKind.NotHere && r.Until!.Latest == TestShop.At(3));
        Assert.True(shop.Shop.Jobs["job-2"].IsExpectedAt(shop.Shop.Now));
        Assert.False(shop.Told("job-2", 1.1, Did.PanelWiped).Shop.Jobs["job-2"].IsExpectedAt(shop.Shop.Now));
        Assert.Equal(TestShop.At(1.1), shop.Shop.Jobs["job-2"].CameAt);
        Assert.False(Hall().Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(3), 20, null)).Until(3).Shop.Jobs["job-2"].IsExpectedAt(TestShop.At(3)));
    }

    /// <summary>At −5 °C into 20 °C and 50 %: a steel skin alone takes some minutes, on a cold body half an hour; dry from its slow bound on.</summary>
    [Fact]
    public void ColdCar_IsBegunWhenItsPanelsAreDry_CountedFromItsArrival()
    {
        TestShop shop = Hall().Both(0, 1).Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(3), -5, null));
        SurfaceArrival arrival = Assert.Single(ArrivalReport.Of(shop.Shop, "job-2").Surfaces);
        Assert.Equal((ArrivalBasis.Told, -5.0), (arrival.Basis, arrival.StartC!.Value));
        Assert.True(arrival.DryAt!.Earliest > TestShop.At(3));
        Assert.True(arrival.DryAt.Latest > arrival.DryAt.Earliest);
        CarDay car = Assert.Single(Bay(shop, "bay-2").Cars);
        Assert.Equal(arrival.DryAt.Latest, car.Arrival.DryFrom);
        Assert.Equal([StartReasonKind.Arrival], car.Asked.Reasons.Select(r => r.Kind));
        Assert.InRange((car.Asked.EarliestAt!.Value - arrival.DryAt.Latest!.Value).TotalMinutes, 0, 1);
        TestShop warm = Hall().Both(0, 1).Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(3), 20, null));
        Assert.Equal(TestShop.At(3), Assert.Single(Bay(warm, "bay-2").Cars).Asked.EarliestAt);
    }

    [Fact]
    public void ColdnessNobodySaid_IsNotTakenForKnown() => Assert.Contains(
        Assert.Single(Bay(Hall().Both(0, 1).Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(3), null, null)), "bay-2").Cars).Asked.Reasons,
        r => r is { Kind: StartReasonKind.Arrival, Weight: StartWeight.Notes });

    [Fact]
    public void Promise_ThatCannotBeKept_DoesNotFit_ThoughAStartDoes()
    {
        CarDay car = Assert.Single(Bay(Hall().Both(0, 1).Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(3), 20, null), promisedAt: TestShop.At(9)), "bay-2").Cars);
        Assert.False(car.Asked.Fits);
        Assert.Equal([StartReasonKind.Promise], car.Asked.Reasons.Select(r => r.Kind));
        Assert.NotNull(car.Asked.EarliestAt);
    }

    [Fact]
    public void StartThatWasAskedFor_AndDoesNotFit_IsSaidWithTheEarliestThatDoes()
    {
        CarDay car = Assert.Single(Bay(
            Hall().Both(0, 1).Planned(HarmfulWork.Sanding, 4, 6, 0.4, bay: "bay-1").Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(3), 20, TestShop.At(4))), "bay-2").Cars);
        Assert.Equal((false, TestShop.At(4)), (car.Asked.Fits, car.Asked.At));
        Assert.Equal([StartReasonKind.SharedAir], car.Asked.Reasons.Select(r => r.Kind));
        Assert.Equal(car.Asked.EarliestAt, car.Work.BeginsAt);
        Assert.True(car.Asked.EarliestAt == TestShop.At(6) || car.Asked.EarliestAt < TestShop.At(4));
    }

    [Fact]
    public void Conflicts_AreOnTheLine_WithWhoHarmsWhom_AndTheNearestFreeTime()
    {
        TestShop shop = Open().Planned(HarmfulWork.Washing, 3, 3.5, hour: 1.1);
        WorkConflict conflict = Assert.Single(DayPlan.Of(shop.Shop).Conflicts);
        Assert.Equal(("work-1", "bay-2", "job-1", "bay-1"), (conflict.Work.Id, conflict.Work.Bay, conflict.Job, conflict.Bay));
        Assert.Equal((TestShop.At(3), TestShop.At(3.5)), (conflict.From, conflict.To));
        Assert.Equal(shop.Window(WindowStage.KeepDry).ClosesAt!.Latest, conflict.OpenUntil);
        Assert.Equal(TestShop.At(24), conflict.FreeFrom); // dry at night, so when the shop opens
        Assert.False(DayPlan.Of(shop.Shop).Fits);
        shop.Planned(HarmfulWork.Washing, 24, 24.5, hour: 1.2);
        Assert.Empty(DayPlan.Of(shop.Shop).Conflicts);
        Assert.Equal(["work-1"], Bay(shop, "bay-2").Work.Select(w => w.Id));
    }

    [Fact]
    public void CarRolledIn_BesideAFreshCoat_IsAConflict_AndNotOnceItIsTouchDry()
    {
        Assert.Equal(HarmfulWork.CarComesIn, Assert.Single(DayPlan.Of(Open().Car("job-2", "bay-2", 1.1, new Visit(TestShop.At(1.5), 20, null)).Shop).Conflicts).Work.Work);
        Assert.Empty(DayPlan.Of(Open().Car("job-2", "bay-2", 1.1, new Visit(TestShop.At(5), 20, null)).Shop).Conflicts);
    }

    [Fact]
    public void Visit_PlannedOtherwise_Counts()
    {
        TestShop shop = Hall().Both(0, 1).Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(3), 20, null))
            .Take(new Message.VisitPlanned("job-2", new Visit(TestShop.At(5), 20, TestShop.At(6)), TestShop.At(1)));
        CarDay car = Assert.Single(Bay(shop, "bay-2").Cars);
        Assert.Equal((TestShop.At(5), TestShop.At(6), TestShop.At(6)), (car.Arrival.At, car.Asked.At, car.Work.BeginsAt));
    }

    [Fact]
    public void PlannedWork_IsLetGoOf_TwoDaysAfterItWasOver()
    {
        TestShop shop = Hall().Planned(HarmfulWork.Washing, 1, 2, 0.1).Until(49).Planned(HarmfulWork.Sanding, 60, 61, 49, "work-2");
        Assert.Equal(2, shop.Shop.Planned.Length);
        Assert.Single(shop.Planned(HarmfulWork.Sanding, 70, 71, 51, "work-2").Shop.Planned);
    }

    [Fact]
    public void Passes_OfOnePersonAndOfTwo_FollowTheClimateOfNow()
    {
        TestShop shop = new TestShop(sections: 9).Steady(0, 1).Tap(0.95, Did.PanelWiped).Until(1);
        StartReport start = StartReport.Of(shop.Shop, "job-1");
        PassReport one = PassReport.Of(shop.Shop, start), two = PassReport.Of(shop.Shop, start, people: 2);
        Assert.Equal(1, one.Pace.People);
        long perPass = Assert.IsType<PassPlan.Workable>(Assert.Single(one.Surfaces).Plan).Sections;
        Assert.Equal(start.Decision.Plan!.Layers[0].SectionsPerPass, perPass);
        Assert.Equal((int)((9 + perPass - 1) / perPass), one.Passes.Length);
        Assert.Equal(9, one.Passes.Sum(p => p.Length));
        Assert.IsType<PassPlan.Endless>(Assert.Single(two.Surfaces).Plan); // levelling takes 45 s, applying a minute
        Assert.Equal(9, Assert.Single(two.Passes).Length);
    }

    private static TestShop Open() => Hall().Both(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled);

    private static BayDay Bay(TestShop shop, string bay) => DayPlan.Of(shop.Shop).Bays.Single(b => b.Bay == bay);
}
