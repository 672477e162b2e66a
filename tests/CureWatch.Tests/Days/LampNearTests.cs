using CureWatch.Bays;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Units;
using CureWatch.Warnings;
using static CureWatch.Curing.Did;

namespace CureWatch.Tests.Days;

/// <summary>
/// A lamp beside an air probe warms the probe and adds no water: its temperature rises, its vapour pressure stays. Common practice, no source.
/// </summary>
public class LampNearTests
{
    private static readonly double CalmPa = 0.5 * SaturationPressure.OverWaterPa(293.15);

    [Theory]
    [InlineData(4)]
    [InlineData(12)]
    [InlineData(25)]
    public void ProbeUnderALamp_MovesNoReleaseEarlier_AndItsMoistureStaysInUse(double warmedByK)
    {
        TestShop lit = Day(hour => Warmed(hour, warmedByK)), calm = Day(_ => (20, 50));
        TimeBounds end = lit.Window(WindowStage.KeepDry).ClosesAt!, without = calm.Window(WindowStage.KeepDry).ClosesAt!;
        Assert.True(end.Latest >= without.Latest - TimeSpan.FromSeconds(1));
        Assert.Equal(without.Likely!.Value, end.Likely!.Value, TimeSpan.FromSeconds(30));
        Assert.True(end.Earliest <= without.Earliest + TimeSpan.FromSeconds(1));
        Assert.InRange(lit.Shop.Tally.Rejected[Disbelief.LampNear], 30, 65);
        Assert.Empty(lit.Warnings(WarningKind.HumidityLow));
        Sample held = lit.Shop.Bays["bay-1"].Logs[0].Air[(int)(2.4 * 60)];
        Assert.Equal(293.15, held.Kelvins, 1e-9);
        Assert.Equal(CalmPa, held.VapourPressurePa, 1);
        Assert.InRange(held.HeldWithinK, 1, 5);
    }

    [Fact]
    public void ProbeUnderALamp_IsBelievedAgainWhenItHasCooledDown()
    {
        TestShop shop = Day(hour => Warmed(hour, 12));
        Assert.Null(shop.Shop.Bays["bay-1"].Logs[0].Refused);
        Assert.Equal(0, shop.Shop.Bays["bay-1"].Logs[0].Air.Last.HeldWithinK);
    }

    [Fact]
    public void TwinTheLampDoesNotReach_SaysTheTemperature()
    {
        TestShop shop = Day(hour => Warmed(hour, 12), twin: hour => (hour < 2 ? 20 : 20.6, 49));
        Sample held = shop.Shop.Bays["bay-1"].Logs[0].Air[(int)(2.4 * 60)];
        Assert.Equal(293.75, held.Kelvins, 1e-9);
        Assert.Empty(shop.Warnings(WarningKind.ProbeDisagreeing));
    }

    [Fact]
    public void WarmAirWithItsOwnMoisture_WhileALampBurns_IsBelieved()
    {
        TestShop shop = Day(hour => hour is > 2 and < 3 ? (27, 60) : (20, 50));
        Assert.False(shop.Shop.Tally.Rejected.ContainsKey(Disbelief.LampNear));
    }

    [Fact]
    public void WithoutALamp_AProbeThatWarms_IsBelieved()
    {
        TestShop shop = Day(hour => Warmed(hour, 12), isLit: false);
        Assert.Empty(shop.Shop.Tally.Rejected);
    }

    [Fact]
    public void LampNobodyPutOut_CountsForFourHours()
    {
        TestShop shop = Day(hour => hour < 2.1 ? (20, 50) : (28, Pct(28)), isPutOut: false, until: 8);
        Assert.Equal(TestShop.At(6.5), shop.Happened.OfType<ShopEvent.ReadingDoubted>().Last().Raw.MeasuredAt, TimeSpan.FromMinutes(1));
    }

    private static (double C, double Pct) Warmed(double hour, double byK)
    {
        double share = hour is < 2 or > 3.2 ? 0 : hour < 2.6 ? Math.Min(1, (hour - 2) * 10) : Math.Max(0, 1 - ((hour - 2.6) * 5));
        double c = 20 + (byK * share);
        return (c, Pct(c));
    }

    private static double Pct(double c) => 100 * CalmPa / SaturationPressure.OverWaterPa(new Celsius(c).Kelvins);

    private static TestShop Day(
        Func<double, (double C, double Pct)> says, Func<double, (double C, double Pct)>? twin = null, bool isLit = true, bool isPutOut = true, double until = 5)
    {
        TestShop shop = new(probes: twin is null ? [TestShop.Air("air-1")] : [TestShop.Air("air-1"), TestShop.Air("air-2")]);
        for (int minute = 0; minute <= 60 * until; minute++)
        {
            double hour = minute / 60.0;
            shop.Read(hour, says(hour).C, says(hour).Pct);
            if (twin is not null)
            {
                shop.Read(hour, twin(hour).C, twin(hour).Pct, "air-2");
            }

            _ = minute switch
            {
                60 => shop.Tap(1, Applied).Tap(1.05, Levelled),
                120 when isLit => shop.Tap(2, LampOn),
                156 when isLit && isPutOut => shop.Tap(2.6, LampOff),
                _ => shop,
            };
        }

        return shop;
    }
}
