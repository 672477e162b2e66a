using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Reports;

namespace CureWatch.Tests.Bays;

public class LastStartTests
{
    // Two layers with an hour between them, open until six: the first has to be begun in time for the second to be levelled before lock-up.
    [Fact]
    public void LastStart_LeavesTimeForLayerTwoBeforeClosing()
    {
        LastStart start = Of(new PromisedCar(null, sheet: PromisedCar.Rows(), layers: 2).Steady(0, 1));
        Assert.Equal(StartLimit.Closing, start.Limit);
        Assert.InRange((PromisedCar.At(10) - start.By!.Value).TotalHours, 1.1, 2);
        Assert.Equal(PromisedCar.At(24), start.NextFrom);
        Assert.Matches("^Start by 16:[0-9]{2} or wait for Tue 08:00", start.Text.ToString());
    }

    [Fact]
    public void LastStart_OfAColdBay_IsSooner()
    {
        DateTimeOffset warm = Of(new PromisedCar(null, sheet: PromisedCar.Rows(), layers: 2).Steady(0, 1)).By!.Value;
        DateTimeOffset cold = Of(new PromisedCar(null, sheet: PromisedCar.Rows(), layers: 2).Steady(0, 1, 12)).By!.Value;
        Assert.True(cold < warm);
    }

    // Keep-dry of 16 h and 75 min of finishing, promised for 10:00 the next day: begun by 16:45 the day before, less what nobody knows, of the panel too.
    [Fact]
    public void LastStart_IsThePromises_WhereThatComesFirst()
    {
        LastStart start = Of(new PromisedCar(24 + 2, sheet: PromisedCar.Rows(16)).Steady(0, 1));
        Assert.Equal(StartLimit.Promise, start.Limit);
        Assert.InRange((PromisedCar.At(24.75) - start.By!.Value).TotalHours, 16, 24);
        Assert.Contains("promise", start.Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void LateInTheDay_ItWaitsForTheNext()
    {
        LastStart start = Of(new PromisedCar(null, sheet: PromisedCar.Rows(), layers: 2).Steady(0, 9.5));
        Assert.Null(start.By);
        Assert.Equal(PromisedCar.At(24), start.NextFrom);
        Assert.StartsWith("It does not fit today any more", start.Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void NothingLeft_HasNoLastStart() => Assert.Null(new PromisedCar(26).Steady(0, 1).Coated(1).Steady(1, 2).Promise.LastStart.Value);

    // A later start is never ready sooner.
    [Fact]
    public void LaterStart_IsNeverReadySooner()
    {
        PromisedCar car = new PromisedCar(40, sheet: PromisedCar.Rows(), layers: 2).Steady(0, 1, 16);
        DateTimeOffset before = DateTimeOffset.MinValue;
        for (double hour = 1; hour < 10; hour += 0.5)
        {
            DateTimeOffset ready = WhatIf.Of(car.Shop, "job-1", new Hypothesis(StartAt: PromisedCar.At(hour))).Report.Promise!.Outlook.ReadyAt!.Latest!.Value;
            Assert.True(ready >= before, $"{hour}: {ready} before {before}");
            before = ready;
        }
    }

    [Fact]
    public void SecondLayer_AwaitsItsRecoat()
    {
        PromisedCar car = new PromisedCar(40, sheet: PromisedCar.Rows(), layers: 2).Steady(0, 1).Tap(0.95, Did.Applied, layer: 1).Tap(1, Did.Levelled, layer: 1).Steady(1, 1.2);
        WhatIf planned = WhatIf.Of(car.Shop, "job-1", new Hypothesis());
        Assert.Equal(2, Assert.Single(planned.Planned).Layer);
        Assert.True(planned.Planned[0].ReadyAt.Latest > PromisedCar.At(14));
    }

    private static LastStart Of(PromisedCar car) => car.Promise.LastStart.Value!;

    /// <summary>What "can I start?" says of the promise is the promise's own time, in the shop's days, and not that of people who work through the night.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(8.5)]
    [InlineData(9.75)]
    public void StartNote_SaysThePromisesOwnTime(double hour)
    {
        PromisedCar car = new PromisedCar(10, layers: 2, surfaces: ["bonnet", "roof", "boot"]).Steady(0, 1).Coated(1).Steady(1, hour);

        StartReport start = StartReport.Of(car.Shop, "job-1");

        DateTimeOffset? collect = car.Promise.Outlook.CollectFrom;
        Assert.Contains(
            $"could be collected from {start.Decision.Day.Clock(collect)} at the latest",
            Assert.Single(start.Decision.Reasons, r => r.Kind == StartReasonKind.Promise).Text.ToString(),
            StringComparison.Ordinal);
        Assert.All(start.Decision.Plan!.Layers, l => Assert.InRange(l.DoneAt.TimeOfDay, TimeSpan.FromHours(8), TimeSpan.FromHours(18)));
    }
}
