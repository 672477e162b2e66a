using CureWatch.Curing;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Days;

/// <summary>A bay that is warm by day and cold at night, day after day: what is told of an evening's coat must know of the night.</summary>
public class ForecastTests
{
    private const int DaysBefore = 8;
    private const double StepHours = 0.25;

    /// <summary>Ten hours after a start at eight: six in the evening.</summary>
    private const double Evening = (24 * DaysBefore) + 10;

    [Fact]
    public void KeepDryOfAnEvening_KnowsOfTheColdNight()
    {
        TestShop shop = Lived(new TestShop(), 0, Evening).Tap(Evening - 0.1, Did.Applied).Tap(Evening - 0.02, Did.Levelled);

        TimeBounds foreseen = KeepDry(shop);
        double hourly = 12 / CoolingRate(Evening);
        Lived(shop, Evening, Evening + 40);
        TimeBounds lived = KeepDry(shop);

        Assert.True((lived.Likely - At(Evening)) > TimeSpan.FromHours(hourly + 2), "the night slows the cure by hours against the evening's climate held");
        Assert.InRange((foreseen.Likely - lived.Likely)!.Value.TotalMinutes, -30, 30);
        Assert.True(foreseen.Earliest < lived.Earliest && lived.Latest < foreseen.Latest);
    }

    // What is past is measured: a forecast that changes its mind must not.
    [Fact]
    public void WhatIsPast_StaysAsItWas_WhateverIsForecast()
    {
        TestShop shop = Lived(new TestShop(), 0, Evening).Tap(Evening - 0.1, Did.Applied).Tap(Evening - 0.02, Did.Levelled);
        Lived(shop, Evening, Evening + 40);
        TimeBounds ended = KeepDry(shop);

        Lived(shop, Evening + 40, Evening + 46, shift: 6);

        Assert.Equal(ended, KeepDry(shop));
    }

    [Fact]
    public void BayOfADay_HoldsItsClimate()
    {
        TestShop shop = Lived(new TestShop(), 0, 10).Tap(9.9, Did.Applied).Tap(9.98, Did.Levelled);

        Assert.Null(shop.Shop.Bays["bay-1"].Forecaster.Kelvins.Course);
        Assert.Equal(12 / CoolingRate(10), (KeepDry(shop).Likely!.Value - At(9.98)).TotalHours, 0.05);
    }

    private static TimeBounds KeepDry(TestShop shop) =>
        shop.Report.Surfaces.Single().Coats.Single().Windows.Single(w => w.Stage == WindowStage.KeepDry).ClosesAt!;

    private static DateTimeOffset At(double hour) => TestShop.At(hour);

    /// <summary>Reads the bay every quarter of an hour.</summary>
    private static TestShop Lived(TestShop shop, double from, double to, double shift = 0)
    {
        for (double hour = from; hour <= to; hour += StepHours)
        {
            (double airC, double humidityPct) = Climate(hour);
            shop.Read(hour, airC + shift, humidityPct);
        }

        return shop;
    }

    private static (double AirC, double HumidityPct) Climate(double hour)
    {
        double airC = 17 + (5 * Math.Cos(2 * Math.PI * (hour - 7) / 24));   // 22 °C at three in the afternoon
        double wobble = 0.4 * Math.Sin(hour / 3.7);
        return (airC + wobble, 100 * 1_000 / (611.2 * Math.Exp(17.62 * airC / (243.12 + airC))));
    }

    /// <summary>The usual law beside its reference of 20 °C and 50 %, by the priors: E 50 kJ/mol, m 0.6.</summary>
    private static double CoolingRate(double hour)
    {
        (double airC, double humidityPct) = Climate(hour);
        return Math.Exp(50_000 / 8.314462618 * ((1 / 293.15) - (1 / (airC + 273.15)))) * Math.Pow(humidityPct / 50, 0.6);
    }
}
