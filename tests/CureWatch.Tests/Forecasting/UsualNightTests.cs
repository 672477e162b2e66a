using CsCheck;
using CureWatch.Forecasting;
using CureWatch.Psychrometrics;

namespace CureWatch.Tests.Forecasting;

/// <summary>A bay of which no day is known yet, whatever the weather.</summary>
public class UsualNightTests
{
    private static readonly DateTimeOffset Noon = new(2026, 7, 6, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void EveryScenario_IsAClimate_WhateverItIsOutdoors() =>
        Gen.Select(Gen.Double[-20, 45], Gen.Double[-5, 38], Gen.Double[0.05, 1], Gen.Bool, Gen.Int[-12, 40]).Sample((outdoorC, bayC, share, isHeated, hoursToLockUp) =>
        {
            Assert.All(Ahead(outdoorC, bayC, share, isHeated, hoursToLockUp), scenario => Assert.All(scenario.Points, p =>
            {
                Assert.InRange(p.AirKelvins, 240, 335);
                Assert.InRange(p.MeasuredPanelKelvins, 230, 345);
                Assert.InRange(p.VapourPressurePa, 1, 30_000);
            }));
        });

    // Whose heating holds less than it gets outdoors heats nothing: the bay is likely as warm now as it was read to be.
    [Theory]
    [InlineData(26)]
    [InlineData(32)]
    [InlineData(40)]
    public void HeatedBay_OnASummerDay_IsNoWarmerNowThanItWasRead(double outdoorC) =>
        Assert.InRange(Ahead(outdoorC, 22, 0.6, isHeated: true, 6).Average(s => s.Points[0].AirKelvins), 294.15, 296.15);

    private static Scenario[] Ahead(double outdoorC, double bayC, double share, bool isHeated, int hoursToLockUp)
    {
        DateTimeOffset leaves = Noon.AddHours(hoursToLockUp);
        double pascals = share * SaturationPressure.OverWaterPa(bayC + 273.15);
        var now = new AirNow(Noon, bayC + 273.15, pascals)
        {
            ColdestPanelKelvins = bayC + 272.65,
            Outdoors = (outdoorC + 273.15, share * SaturationPressure.OverWaterPa(outdoorC + 273.15)),
            IsHeatedAtNight = isHeated,
            LeavesAt = hoursToLockUp < 0 ? Noon : leaves,
            LeftAt = hoursToLockUp < 0 ? leaves : null,
            OpensAt = Noon.AddHours(Math.Max(0, hoursToLockUp) + 14),
        };
        return Scenarios.Of(ClimateForecaster.New([3, 6, 12, 24]), now, 24).All.ToArray();
    }
}
