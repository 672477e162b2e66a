using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Reports;

namespace CureWatch.Tests.Bays;

public class PromiseAdviceTests
{
    [Fact]
    public void Heat_IsTheLeastThatIsEnough()
    {
        PromisedCar car = Cold([Equipment.FixedHeating]);
        PromiseAdvice advice = PromiseAdvice.Of(car.Shop, "job-1")!;
        WayBack heat = Assert.Single(advice.Ways);
        Assert.True(advice.IsNeeded && heat is { Kind: WayKind.Heat, IsEnough: true }, advice.Text.ToString());
        Assert.True(heat.Then.Chance >= 0.9);
        double less = WhatIf.Of(car.Shop, "job-1", new Hypothesis(AirC: heat.AirC - 0.5)).Report.Promise!.Outlook.ChanceOnceLifted!.Value;
        Assert.True(less < 0.9, $"{heat.AirC - 0.5} °C: {less}");
        Assert.Contains("heat adds no water", advice.Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void HigherChance_NeedsNoLess()
    {
        PromisedCar car = Cold([Equipment.FixedHeating]);
        double[] warmth = [.. new[] { 0.5, 0.8, 0.9, 0.95 }.Select(c => PromiseAdvice.Of(car.Shop, "job-1", c)!).Select(a => a.IsNeeded ? a.Ways[0].AirC!.Value : 0)];
        Assert.Equal(warmth.Order(), warmth);
    }

    [Fact]
    public void Bay_WithNothing_SaysSo()
    {
        PromiseAdvice advice = PromiseAdvice.Of(Cold([]).Shop, "job-1")!;
        Assert.Empty(advice.Ways);
        Assert.StartsWith("Nothing that this bay has", advice.Text.ToString(), StringComparison.Ordinal);
        Assert.Contains("The soonest is", advice.Text.ToString(), StringComparison.Ordinal);
    }

    // The soonest collection can be the promised hour itself and still not be as safe as was asked: then that is what is said.
    [Fact]
    public void WayThatIsNotSafeEnough_IsNotCalledTheSoonestAfterNothingMakesIt()
    {
        PromiseAdvice[] advices =
        [
            .. from promised in new[] { 25.5, 26.5, 27.5, 28.5 }
               let car = Cold([Equipment.PortableHeater], promisedHour: promised, untilHour: 6)
               from target in new[] { 0.9, 0.95, 0.99, 0.999, 0.99999 }
               let advice = PromiseAdvice.Of(car.Shop, "job-1", target)!
               where advice.Soonest?.Then.CollectFrom <= PromisedCar.At(promised)
               select advice,
        ];
        Assert.All(advices, a => Assert.DoesNotContain("The soonest is", a.Text.ToString(), StringComparison.Ordinal));
        Assert.All(advices, a => Assert.Contains("Safest is to hold", a.Text.ToString(), StringComparison.Ordinal));
        Assert.NotEmpty(advices);
    }

    // Ten minutes before it is dry by itself nobody heats a hall to gain five.
    [Fact]
    public void Heat_ForAFewMinutes_IsNoWay()
    {
        PromisedCar car = Cold([Equipment.FixedHeating], promisedHour: 25.25, untilHour: 12, airC: 11);
        double dry = (car.Promise.Outlook.ReadyAt!.Latest!.Value - PromisedCar.Start).TotalHours;
        PromiseAdvice advice = PromiseAdvice.Of(car.Steady(12.1, dry - 0.2, 11).Shop, "job-1")!;
        Assert.True(advice.IsNeeded, advice.Text.ToString());
        Assert.Empty(advice.Ways);
        Assert.EndsWith("as it is.", advice.Text.ToString(), StringComparison.Ordinal);
    }

    // Open until six: a heater that has to be attended ends with the day, and in the night there is none, nor a lamp.
    [Fact]
    public void PortableHeater_IsForTheDayOnly()
    {
        WayBack? day = PromiseAdvice.Of(Cold([Equipment.PortableHeater], untilHour: 6).Shop, "job-1")!.Ways.FirstOrDefault();
        Assert.Equal(PromisedCar.At(10), day?.Until);
        Assert.Empty(PromiseAdvice.Of(Cold([Equipment.PortableHeater, Equipment.Lamp], untilHour: 12, lamp: Band).Shop, "job-1")!.Ways);
    }

    [Fact]
    public void Heat_NeverLeavesTheAirDrierThanTheSheet()
    {
        PromisedCar car = Cold([Equipment.FixedHeating], humidityPct: 35, promisedHour: 24.5);
        PromiseAdvice advice = PromiseAdvice.Of(car.Shop, "job-1")!;
        Assert.All(advice.Ways, w => Assert.True(w.HumidityPct >= 30, $"{w}"));
        Assert.All(advice.Ways, w => Assert.True(w.AirC <= 30, $"{w}"));
        PromiseAdvice moistened = PromiseAdvice.Of(Cold([Equipment.FixedHeating, Equipment.Humidifier], humidityPct: 35, promisedHour: 24.5).Shop, "job-1")!;
        Assert.Contains(moistened.Ways, w => w.Kind == WayKind.HeatAndMoisten);
        Assert.Contains(moistened.Ways, w => w.Kind == WayKind.Moisten);
    }

    [Fact]
    public void Lamp_GoesByTheSheetsBand()
    {
        PromisedCar car = Cold([Equipment.Lamp], untilHour: 4, lamp: Band, promisedHour: 24.25);
        WayBack lamp = Assert.Single(PromiseAdvice.Of(car.Shop, "job-1")!.Ways);
        Assert.Equal(WayKind.Lamp, lamp.Kind);
        Assert.InRange(lamp.LampMinutes.Single().Minutes, 1, 30);
        Assert.True(lamp.Until <= PromisedCar.At(10));
        Assert.Empty(PromiseAdvice.Of(Cold([Equipment.Lamp], untilHour: 4, promisedHour: 24.25).Shop, "job-1")!.Ways);
    }

    // A hall of 90 % may be above what the law knows, where the slow bound earns nothing; outdoors it is drier. An extraction was no way back.
    [Theory]
    [InlineData(14, 60, true, "")]
    [InlineData(17.5, 99, true, "less than 2 K lower")]
    [InlineData(14, 60, false, "no extraction")]
    [InlineData(-25, 60, true, "too cold for the sheet")]
    [InlineData(14, 10, true, "too dry for the sheet")]
    public void Airing_IsAWay_WhereItIsDrierOutdoors_AndNothingSuffersByIt(double outC, double outPct, bool isEquipped, string whyNot)
    {
        PromisedCar car = new PromisedCar(27, isEquipped ? [Equipment.Extraction] : [], PromisedCar.Rows(), outdoors: true).Steady(0, 1, 19, 90).Coated(1).Steady(1, 4, 19, 90);
        car.Read(4, outC, outPct, "yard");
        PromiseAdvice advice = PromiseAdvice.Of(car.Shop, "job-1")!;
        Assert.Equal(whyNot.Length == 0, advice.Ways.Any(w => w.Kind == WayKind.Air));
        if (whyNot.Length == 0)
        {
            WayBack air = advice.Ways.Single(w => w.Kind == WayKind.Air);
            Assert.Equal(16.5, air.AirC!.Value, 0.1); // half way to outdoors: the walls give the other half back
            Assert.InRange(air.HumidityPct!.Value, 45, 55);
            Assert.Contains("air the bay with the extraction", advice.Text.ToString(), StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public void NoPromise_AsksForNothing() => Assert.Null(PromiseAdvice.Of(new PromisedCar(null).Steady(0, 1).Coated(1).Shop, "job-1"));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Chance_OutsideItsRange_IsRefused(double target) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PromiseAdvice.Of(Cold([]).Shop, "job-1", target));

    private static ImmutableArray<LampBand> Band => [new LampBand(55, 65, 0.2, TimeSpan.FromHours(1), 30, [Stage.KeepDry])];

    /// <summary>Levelled at nine in a cold bay and promised for the next morning, for which it is too cold by itself.</summary>
    private static PromisedCar Cold(Equipment[] equipment, double humidityPct = 50, double promisedHour = 25.5, double untilHour = 4, ImmutableArray<LampBand>? lamp = null, double airC = 12) =>
        new PromisedCar(promisedHour, equipment, PromisedCar.Rows(lamp: lamp)).Steady(0, 1, airC, humidityPct).Coated(1).Steady(1, untilHour, airC, humidityPct);
}
