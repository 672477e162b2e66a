using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Products;

namespace CureWatch.Tests.Bays;

public class PromiseAdviceTests
{
    [Fact]
    public void Heat_IsTheLeastThatIsEnough()
    {
        PromisedCar car = Cold([Equipment.FixedHeating]);
        PromiseAdvice advice = PromiseAdvice.Of(car.Shop, "job-1")!;
        WayBack heat = Assert.Single(advice.Ways);
        Assert.True(advice.IsNeeded && heat is { Kind: WayKind.Heat, IsEnough: true }, advice.Text);
        Assert.True(heat.Then.Chance >= 0.9);
        double less = WhatIf.Of(car.Shop, "job-1", new Hypothesis(AirC: heat.AirC - 0.5)).Report.Promise!.Outlook.ChanceOnceLifted!.Value;
        Assert.True(less < 0.9, $"{heat.AirC - 0.5} °C: {less}");
        Assert.Contains("heat adds no water", advice.Text, StringComparison.Ordinal);
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
        Assert.StartsWith("Nothing that this bay has", advice.Text, StringComparison.Ordinal);
        Assert.Contains("The soonest is", advice.Text, StringComparison.Ordinal);
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
    private static PromisedCar Cold(Equipment[] equipment, double humidityPct = 50, double promisedHour = 25.5, double untilHour = 4, ImmutableArray<LampBand>? lamp = null) =>
        new PromisedCar(promisedHour, equipment, PromisedCar.Rows(lamp: lamp)).Steady(0, 1, 12, humidityPct).Coated(1).Steady(1, untilHour, 12, humidityPct);
}
