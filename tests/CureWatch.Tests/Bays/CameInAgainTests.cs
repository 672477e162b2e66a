using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;

namespace CureWatch.Tests.Bays;

/// <summary>A car that is moved before it is coated takes what it went through with it: two bays of 48 %, −3 °C outdoors.</summary>
public class CameInAgainTests
{
    private static readonly string[] Surfaces = ["door", "screen", "wheels"];

    // It was as dry as it had been the day before, and its panels as warm as the bay.
    [Theory]
    [InlineData("outside")]
    [InlineData("store")]
    public void Car_ThatStoodOutOverNight_ComesInColdAgain(string place)
    {
        CarInTwoBays fresh = new CarInTwoBays(comesAt: 600).Until(605);
        CarInTwoBays again = new CarInTwoBays().Until(300).Moves(place).Until(600).Moves("bay-1").Until(602).Tells(Did.PanelWiped).Until(605);
        Assert.All(Surfaces, s => Assert.Equal(fresh.Arrival(s).DryAt, again.Arrival(s).DryAt));
        Assert.All(Surfaces, s => Assert.True(again.Arrival(s).NeedsWipe));
        Assert.All(
            StartReport.Of(again.Shop, "job-1").Decision.Answers,
            a => Assert.Contains(a.Reasons, r => r is { Kind: StartReasonKind.Arrival, Weight: StartWeight.Waits }));
        Assert.StartsWith("It came in as outside measured outdoors then", ArrivalReport.Of(again.Shop, "job-1").Assumes.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Spot_FromBefore_SaysNothingOfACarThatCameInAgain_OneReadSinceDoes()
    {
        CarInTwoBays car = new CarInTwoBays().Until(300).Tells(Did.Measured, panelC: 18.5).Moves("outside").Until(600).Moves("bay-1").Until(605);
        SurfaceArrival[] before = [.. Surfaces.Select(car.Arrival)];
        Assert.All(before, s => Assert.Equal(ArrivalBasis.Outdoors, s.Basis));
        SurfaceArrival[] since = [.. Surfaces.Select(car.Tells(Did.Measured, panelC: 18.5).Arrival)];
        Assert.All(since, s => Assert.Equal(ArrivalBasis.Spot, s.Basis));
        Assert.All(since.Zip(before), s => Assert.True(s.First.DryAt!.Likely <= s.Second.DryAt!.Likely));
        Assert.True(since[2].DryAt!.Likely < before[2].DryAt!.Likely);
    }

    // A second layer went on a panel that was as cold as the night.
    [Fact]
    public void Layer_OnACarThatStoodOut_WaitsToo()
    {
        CarInTwoBays car = new CarInTwoBays(layers: 2).Until(300).Tells(Did.Applied, "door").Until(320);
        Assert.DoesNotContain(ArrivalReport.Of(car.Shop, "job-1").Surfaces, s => s.Surface.Id == "door");
        car.Moves("outside").Until(600).Moves("bay-1").Until(605);
        Assert.Contains(StartReport.Of(car.Shop, "job-1", "door").Decision.Answers.Single().Reasons, r => r.Kind == StartReasonKind.Arrival);
    }

    // An hour in a prep bay of 5 °C counted as an hour in the warm bay it went to.
    [Theory]
    [InlineData("door")]
    [InlineData("screen")]
    [InlineData("wheels")]
    public void Car_ThatStoodInAColderBay_IsDryNoSoonerThanOneThatJustCameFromThere(string surface)
    {
        SurfaceArrival moved = new CarInTwoBays(firstC: 5).Until(60).Moves("bay-2").Until(65).Arrival(surface);
        SurfaceArrival stayed = new CarInTwoBays(firstC: 5, secondC: 5).Until(65).Arrival(surface);
        SurfaceArrival came = new CarInTwoBays(outdoorC: 5, comesAt: 60).Until(65).Arrival(surface);
        Assert.True(moved.DryAt!.Latest >= came.DryAt!.Likely);
        Assert.InRange(moved.NowC!.Value, stayed.NowC!.Value, came.NowC!.Value);
    }
}
