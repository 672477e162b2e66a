using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>What becomes of a promise whose time has come, and of the warning that stands. Open from 8 to 18; finishing takes 75 minutes.</summary>
public class PastPromiseTests
{
    private static readonly string[] Told = ["Missed at 17:00", "Tell them"];

    [Fact]
    public void Promise_OfACarThatWasNotReady_IsMissedWithItsTime_AndHasANewOne()
    {
        PromisedCar car = Cured(promisedHour: 9, untilHour: 8.9);
        Assert.Equal(PromiseStanding.Ahead, car.Promise.Outlook.Standing);
        car.Steady(8.95, 11);
        PromiseReport missed = car.Promise;
        Assert.Equal((PromiseStanding.Missed, 0.0, 0.0), (missed.Outlook.Standing, missed.Outlook.Chance, missed.Outlook.ChanceOnceLifted));
        Assert.StartsWith("Missed at 17:00; the earliest to tell now is Tue 09:15", missed.Text.ToString(), StringComparison.Ordinal);
        Assert.Equal(PromisedCar.At(25.25), missed.Tell);
        Assert.All(Told, words => Assert.Contains(words, Assert.Single(Standing(car)).Detail?.ToString(), StringComparison.Ordinal));
    }

    [Fact]
    public void Promise_OfACarThatWasReady_IsKept_WhenSoeverItIsFetched()
    {
        PromisedCar car = Cured(promisedHour: 33.5, untilHour: 20).Take(new Message.ClockReached(PromisedCar.At(400)));
        Assert.Equal((PromiseStanding.Kept, 1.0), (car.Promise.Outlook.Standing, car.Promise.Outlook.Chance));
        Assert.Contains("17:30 is kept", car.Promise.Text.ToString(), StringComparison.Ordinal);
        Assert.Empty(Standing(car));
        Assert.Equal(PromiseStanding.Kept, car.Tap(401, Did.Wetted).Promise.Outlook.Standing); // it may get wet by then
    }

    /// <summary>Nobody looked at the settled car when its time came; a spot was found an hour later, and the promise was called missed.</summary>
    [Fact]
    public void Kept_StaysKept_WhateverHappensAfterwards()
    {
        PromisedCar car = Cured(promisedHour: 33.5, untilHour: 20).Steady(20.1, 34).Tap(34.5, Did.Inspected, "bonnet", found: Found.HighSpot);
        PromiseReport kept = car.Promise;
        Assert.Equal((PromiseStanding.Kept, 1.0, 1.0), (kept.Outlook.Standing, kept.Outlook.Chance, kept.Outlook.ChanceOnceLifted));
        Assert.Matches("^(Tue )?17:30 is kept: the car was ready. It is held since: bonnet: .* The earliest to tell now is ", kept.Text.ToString());
        Assert.True(kept.Tell > PromisedCar.At(34));
        Assert.Empty(Standing(car.Steady(34.6, 40)));
        Assert.Equal(PromiseStanding.Kept, car.Tap(41, Did.Reworked, "bonnet").Promise.Outlook.Standing);
    }

    [Fact]
    public void Missed_StaysMissed_WhateverIsPutRightAfterwards()
    {
        PromisedCar car = Cured(promisedHour: 33.5, untilHour: 20).Tap(20, Did.Inspected, "bonnet", found: Found.HighSpot).Steady(20.1, 34);
        Assert.Equal(PromiseStanding.Missed, car.Promise.Outlook.Standing);
        Assert.Equal(PromiseStanding.Missed, car.Tap(34.5, Did.Inspected, "bonnet", found: Found.Clear).Promise.Outlook.Standing);
    }

    /// <summary>What was before the promise and is told after it belongs to what came of it.</summary>
    [Theory]
    [InlineData(33.4, PromiseStanding.Missed)]
    [InlineData(33.6, PromiseStanding.Kept)]
    public void Kept_IsJudgedAnew_WhereSomebodyTellsLaterWhatWasBefore(double hour, PromiseStanding then)
    {
        PromisedCar car = Cured(promisedHour: 33.5, untilHour: 34);
        car.Take(new Message.Tapped("job-1", new Tap("late", PromisedCar.At(hour), PromisedCar.At(34.2), "bonnet", Did.Inspected, 1, Found: Found.Streak)));
        Assert.Equal(then, car.Promise.Outlook.Standing);
    }

    /// <summary>A new time told is a new promise.</summary>
    [Fact]
    public void Missed_AndToldAnew_IsAhead()
    {
        PromisedCar car = Cured(promisedHour: 9, untilHour: 11).Tap(11, Did.Told, promisedHour: 30);
        Assert.Equal(PromiseStanding.Ahead, car.Promise.Outlook.Standing);
        Assert.True(car.Promise.Outlook.Chance > 0.9);
        Assert.Empty(Standing(car.Steady(11, 12)));
    }

    /// <summary>The bay gets colder and colder: what is to be told moves, people are warned once, and what the warning says is never older than the last look.</summary>
    [Fact]
    public void StandingWarning_SaysTheNewestTime_AndRingsOnce()
    {
        PromisedCar car = new PromisedCar(26, sheet: PromisedCar.Rows(20)).Steady(0, 1).Coated(1);
        var said = new HashSet<string>();
        for (double hour = 1; hour < 24; hour += 0.25)
        {
            car.Steady(hour + 0.05, hour + 0.25, 20 - Math.Min(8, hour / 2), 50);
            if (Standing(car).SingleOrDefault() is { } warning)
            {
                said.Add(warning.Detail!.ToString());
                PromiseMove move = car.Shop.Jobs["job-1"].Promise.Move!;
                Assert.Contains(move.Reason.ToString(), warning.Detail?.ToString(), StringComparison.Ordinal);
                Assert.True(move.Tell is null || move.Tell > car.Shop.Now);
            }
        }

        Assert.True(said.Count > 1);
        Assert.Single(car.Happened.OfType<ShopEvent.WarningRaised>(), e => e.Warning.Subject.Kind == WarningKind.PromiseAtRisk);
    }

    // Its sheet only notes a missed level-off: it was "kept: the car was ready", and never levelled.
    [Fact]
    public void CarThatNobodyLevelled_KeepsNoPromise_AndIsWarnedOf()
    {
        PromisedCar car = new PromisedCar(30, sheet: TestShop.Paint(ifMissed: CureWatch.Products.IfMissed.Note)).Steady(0, 1).Tap(1, Did.Applied).Steady(1.1, 26);
        Assert.Equal(0, car.Promise.Outlook.Chance);
        Assert.Single(Standing(car.Steady(26.1, 29)));
        Assert.Equal(PromiseStanding.Missed, car.Steady(29.1, 31).Promise.Outlook.Standing);
    }

    /// <summary>Nothing is heard or told: four months are some hundred looks, not three thousand; what it comes to is the same as if the clock had been asked every twenty days.</summary>
    [Theory]
    [InlineData(9)]
    [InlineData(24 * 100)]
    public void ShopThatWasOff_IsNotLookedAtHourByHour(double promisedHour)
    {
        PromisedCar car = Cured(promisedHour, untilHour: 3, keepDryHours: 200), asked = Cured(promisedHour, untilHour: 3, keepDryHours: 200);
        int before = Looks(car);
        car.Take(new Message.ClockReached(PromisedCar.At(24 * 120)));
        Assert.InRange(Looks(car) - before, 1, 200);
        for (int day = 20; day <= 120; day += 20)
        {
            asked.Take(new Message.ClockReached(PromisedCar.At(24 * day)));
        }

        Assert.Equal(asked.Shop.Jobs["job-1"].Promise, car.Shop.Jobs["job-1"].Promise);
        Assert.Equal(PromiseStanding.Missed, car.Promise.Outlook.Standing);
        Assert.Single(Standing(car));
    }

    private static int Looks(PromisedCar car) => car.Happened.OfType<ShopEvent.PromiseWatched>().Count();

    private static IEnumerable<Warning> Standing(PromisedCar car) =>
        car.Shop.Standing.Where(s => s.Key.Kind == WarningKind.PromiseAtRisk).Select(s => car.Shop.Warnings[s.Value]);

    private static PromisedCar Cured(double promisedHour, double untilHour, double keepDryHours = 12) =>
        new PromisedCar(promisedHour, sheet: PromisedCar.Rows(keepDryHours)).Steady(0, 1).Coated(1).Steady(1, untilHour);

    // Ready since the night before last: nobody can be told a time that is past, and whoever is held is told so first.
    [Fact]
    public void CarWithoutAPromise_IsToldATimeThatIsToCome_AndAHoldBeforeIt()
    {
        PromisedCar car = new PromisedCar(null, sheet: PromisedCar.Rows()).Steady(0, 1).Coated(1).Steady(1, 50);
        Assert.True(car.Promise.Tell >= car.Shop.Now, $"{car.Promise.Tell} at {car.Shop.Now}");
        Assert.StartsWith("The customer was told no time; you can tell them 10:", car.Promise.Text.ToString(), StringComparison.Ordinal);

        car.Tap(50, Did.Inspected, "bonnet", found: Found.WaterMark);
        Assert.StartsWith("The customer was told no time, and the car is held: bonnet: ", car.Promise.Text.ToString(), StringComparison.Ordinal);
    }

    // It cures sooner than was told, but a person has to look first: no earlier time is told meanwhile.
    [Fact]
    public void EarlierTime_IsNotTold_WhileAPersonHoldsTheCar()
    {
        static PromisedCar Warmed(Action<PromisedCar> tell)
        {
            PromisedCar car = new PromisedCar(60, sheet: PromisedCar.Rows(20)).Steady(0, 1, airC: 12).Coated(1);
            tell(car);
            return car.Steady(1, 10, airC: 26);
        }

        Assert.NotNull(Warmed(_ => { }).Promise.Move);
        Assert.Null(Warmed(car => car.Tap(1.2, Did.Inspected, "bonnet", found: Found.HighSpot)).Promise.Move);
    }
}
