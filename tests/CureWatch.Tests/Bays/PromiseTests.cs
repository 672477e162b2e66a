using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Reports;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

public class PromiseTests
{
    // Levelled at nine in a steady bay, 12 h at the reference: over at 21:00; finishing of 75 min from eight on, so 09:15 the next morning.
    [Theory]
    [InlineData(25.25, true)]
    [InlineData(24.5, false)]
    [InlineData(9.5, false)]
    public void Chance_FollowsFinishingInsideOpeningHours(double promisedHour, bool isSafe)
    {
        PromisedCar car = new PromisedCar(promisedHour, sheet: PromisedCar.Rows()).Steady(0, 1).Coated(1).Steady(1, 2);
        Assert.Equal(isSafe, car.Promise.Outlook.Chance >= 0.95);
        Assert.Equal(Awaits.KeepDry, car.Promise.Outlook.Governing!.Waits);
    }

    [Fact]
    public void Chance_OfALaterPromise_IsNeverLess()
    {
        PromisedCar car = new PromisedCar(20, sheet: PromisedCar.Rows()).Steady(0, 1, airC: 13, humidityPct: 60).Coated(1).Steady(1, 8, airC: 13, humidityPct: 60);
        double before = -1;
        for (double hour = 9; hour < 60; hour += 0.25)
        {
            double chance = WhatIf.Of(car.Shop, "job-1", new Hypothesis(PromisedAt: PromisedCar.At(hour))).Report.Promise!.Outlook.Chance!.Value;
            Assert.True(chance >= before, $"{hour}: {chance} after {before}");
            before = chance;
        }

        Assert.Equal(1, before, 1e-6);
    }

    [Fact]
    public void Governing_IsTheSlowestCoat()
    {
        PromisedCar car = new PromisedCar(25.5, sheet: PromisedCar.Rows(), surfaces: ["bonnet", "roof"]).Steady(0, 1);
        car.Tap(0.95, Did.Applied, "bonnet").Tap(1, Did.Levelled, "bonnet").Steady(1, 3).Tap(2.95, Did.Applied, "roof").Tap(3, Did.Levelled, "roof").Steady(3, 4);
        Assert.Equal("roof", car.Promise.Outlook.Governing!.Surface.Id);
    }

    [Fact]
    public void Hold_ThatOnlyPeopleLift_LeavesNoChance_UntilItIsLifted()
    {
        PromisedCar car = new PromisedCar(40, sheet: PromisedCar.Rows()).Steady(0, 1).Coated(1).Tap(1.2, Did.Inspected, "bonnet", found: Found.HighSpot).Steady(1.2, 2);
        Assert.Equal(0, car.Promise.Outlook.Chance);
        Assert.True(car.Promise.Outlook.ChanceOnceLifted > 0.95);
        Assert.Single(car.Promise.Outlook.ForPeople);
        Assert.True(car.Tap(2, Did.Inspected, "bonnet", found: Found.Clear).Promise.Outlook.Chance > 0.95);
    }

    // Dry long before its promise, and a high spot is found three hours ahead of it: who waits for somebody's look is not called for an hour that is sooner.
    [Fact]
    public void Hold_ThatOnlyPeopleLift_TellsNobodyToComeSooner()
    {
        PromisedCar car = new PromisedCar(32, sheet: PromisedCar.Rows()).Steady(0, 1).Coated(1).Steady(1, 29.1).Tap(29.1, Did.Inspected, "bonnet", found: Found.HighSpot);
        car.Steady(29.2, 31.9);
        Warning warning = Assert.Single(car.Shop.Warnings.Values, w => w.Subject.Kind == WarningKind.PromiseAtRisk);
        Assert.Null(car.Promise.Move!.Tell);
        Assert.StartsWith("No time can be told for now", warning.Detail?.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void ColderBay_WarnsOnce_WithOneTimeToTell()
    {
        PromisedCar car = Chilled();
        Warning warning = Assert.Single(car.Shop.Warnings.Values, w => w.Subject.Kind == WarningKind.PromiseAtRisk);
        PromiseMove move = car.Promise.Move!;
        Assert.Null(warning.ClearedAt);
        Assert.Equal(PromisedCar.At(25.5), move.Was);
        Assert.True(move.Tell > move.Was);
        Assert.Equal(0, move.Tell!.Value.Minute % 15);
        Assert.StartsWith("Tell them ", warning.Detail?.ToString(), StringComparison.Ordinal);
        Assert.Contains("were reckoned", move.Reason.ToString(), StringComparison.Ordinal);
        Assert.Contains("fixed heating", move.GetsItBack?.ToString(), StringComparison.Ordinal);
    }

    // What was said to the customer is kept: only half an hour or more is worth another call.
    [Fact]
    public void TimeToTell_IsKept_WhileTheBayWobbles()
    {
        PromisedCar car = Chilled();
        DateTimeOffset? tell = car.Promise.Move!.Tell;
        for (int i = 0; i < 24; i++)
        {
            car.Read(8 + (i / 12.0), 10.5 + (0.1 * Math.Sin(i)), 50);
            Assert.Equal(tell, car.Promise.Move!.Tell);
        }
    }

    // What got it back in the afternoon no longer does at the end of the night, and nothing does once the time is past.
    [Fact]
    public void WhatGetsItBack_IsNeverOlderThanTheLastLook()
    {
        PromisedCar car = Chilled();
        string? first = car.Promise.Move!.GetsItBack?.ToString();
        car.Steady(8.1, 20, airC: 10.5).Tap(20, Did.Inspected, "bonnet", found: Found.Clear);
        Assert.NotEqual(first, car.Promise.Move!.GetsItBack?.ToString());
        Assert.Equal(PromiseAdvice.Of(car.Shop, "job-1", 0.95)!.Text, car.Promise.Move.GetsItBack);
        Assert.Null(car.Steady(20.1, 26, airC: 10.5).Promise.Move!.GetsItBack);
    }

    // Begun now it would be dry in the night; it comes, or is planned, when that is too late.
    [Theory]
    [InlineData(0.0, null, true)]
    [InlineData(24.0, null, false)]
    [InlineData(0.0, 24.0, false)]
    public void CarThatIsPlanned_CountsFromThen(double arrivesHour, double? plannedHour, bool isSafe)
    {
        PromisedCar car = new PromisedCar(25.5, sheet: PromisedCar.Rows()).Steady(0, 1);
        car.Take(new Message.VisitPlanned("job-1", new Visit(PromisedCar.At(arrivesHour), null, plannedHour is { } hour ? PromisedCar.At(hour) : null), PromisedCar.At(1)));
        Assert.Equal(isSafe, car.Promise.Outlook.Chance >= 0.9);
        Assert.True(plannedHour is null || car.Promise.LastStart.Value!.By is not null);
        Assert.Equal(arrivesHour > 0, car.Promise.LastStart.Value!.By is null);
    }

    // A start is supposed for nine, and the car comes the day after: nothing is reckoned as if it were there.
    [Fact]
    public void StartBeforeTheCarComes_IsBegunWhenItDoes()
    {
        PromisedCar car = new PromisedCar(25.5, sheet: PromisedCar.Rows()).Steady(0, 1);
        car.Take(new Message.VisitPlanned("job-1", new Visit(PromisedCar.At(24), null, null), PromisedCar.At(1)));
        WhatIf early = WhatIf.Of(car.Shop, "job-1", new Hypothesis { StartAt = PromisedCar.At(1.5) });
        Assert.Contains("not here, or not dry, before", Assert.Single(early.Beyond).ToString(), StringComparison.Ordinal);
        Assert.All(early.Planned, coat => Assert.True(coat.ReadyAt.Earliest > PromisedCar.At(24), $"{coat.ReadyAt.Earliest}"));
    }

    // Dry at nine in the evening; finishing of 75 min from eight on is not done at nine in the morning, and the coat is not to blame.
    [Fact]
    public void PromiseThatFinishingMisses_BlamesTheHours()
    {
        PromisedCar car = new PromisedCar(25, sheet: PromisedCar.Rows()).Steady(0, 1).Coated(1).Steady(1, 2);
        Assert.Equal("bonnet is dry in time, but finishing it within the opening hours takes longer than was told.", car.Promise.Move!.Reason.ToString());
    }

    [Fact]
    public void Told_EndsTheWarning_AndIsThePromiseFromThenOn()
    {
        PromisedCar car = Chilled();
        double told = (car.Promise.Move!.Tell!.Value - PromisedCar.Start).TotalHours;
        car.Tap(8, Did.Told, promisedHour: told);
        Assert.Null(car.Promise.Move);
        Assert.Equal(PromisedCar.At(told), car.Promise.Outlook.PromisedAt);
        Assert.NotNull(Assert.Single(car.Shop.Warnings.Values, w => w.Subject.Kind == WarningKind.PromiseAtRisk).ClearedAt);
        Assert.DoesNotContain(JobReport.Of(car.Shop, "job-1").Ruling.Holds, h => h.Kind == HoldKind.ReportedLate);
    }

    [Fact]
    public void PromiseWithinReach_NeverWarns_HoweverLong()
    {
        PromisedCar car = new PromisedCar(28, sheet: PromisedCar.Rows()).Steady(0, 1).Coated(1).Steady(1, 24);
        Assert.DoesNotContain(car.Shop.Warnings.Values, w => w.Subject.Kind == WarningKind.PromiseAtRisk);
    }

    [Fact]
    public void CarThatLeft_IsLookedAtNoMore()
    {
        PromisedCar car = Chilled().Take(new Message.CarLeft("job-1", PromisedCar.At(9)));
        Assert.DoesNotContain(car.Shop.Standing.Keys, s => s.Kind == WarningKind.PromiseAtRisk);
        Assert.True(ShopFold.NextDueAt(car.Shop) > PromisedCar.At(9));
    }

    [Fact]
    public void WetCar_CountsFromItsDrying()
    {
        PromisedCar car = new PromisedCar(25.5, sheet: PromisedCar.Rows()).Steady(0, 1).Coated(1).Steady(1, 6).Tap(6, Did.Wetted, "bonnet").Steady(6.1, 6.2);
        Assert.Equal(Awaits.Drying, car.Promise.Outlook.Governing!.Waits);
        Assert.Equal(0, car.Promise.Outlook.Chance);
    }

    private static PromisedCar Chilled() =>
        new PromisedCar(25.5, [Equipment.FixedHeating], PromisedCar.Rows()).Steady(0, 1).Coated(1).Steady(1, 2).Steady(2.1, 8, airC: 10.5, humidityPct: 50);
}
