using CureWatch.Readings;

namespace CureWatch.Tests.Bays;

/// <summary>What a probe says above its twin is kept, however often they speak. Common practice, no source.</summary>
public class ComparedTwinsTests
{
    private const double WarmerK = 0.2;

    // The first reading within ten seconds is no look where five come a second, and looks fall in between.
    [Theory]
    [InlineData(0.2, 0.4)]
    [InlineData(0.99, 0)]
    [InlineData(60, 0)]
    public void TwinsHeardAsOften_AreCompared(double everySeconds, double firstAtSecond) =>
        Assert.Equal(WarmerK, Compared(everySeconds, firstAtSecond).Now()!.Kelvins, 1e-9);

    [Fact]
    public void TwinCorrectedBetweenTwoLooks_IsComparedAnew()
    {
        Probe corrected = TestShop.Air("air-1") with { Calibrations = [new Calibration(TestShop.At(4 + (103.3 / 3600)), -WarmerK, 0)] };
        Assert.Null(Compared(0.2, 0.4, corrected).Now());
    }

    /// <summary>A few minutes either side of noon, at which a window of the record ends.</summary>
    private static TwinRecord Compared(double everySeconds, double firstAtSecond, Probe? probe = null)
    {
        TestShop shop = new(probes: [probe ?? TestShop.Air("air-1"), TestShop.Air("air-2")]);
        for (double second = (-240) + firstAtSecond; second < 240; second += everySeconds)
        {
            double hour = 4 + (Math.Round(second, 3) / 3600);
            shop.Read(hour, 20, 50, "air-2").Read(hour, 20 + WarmerK, 50);
        }

        return shop.Shop.Bays["bay-1"].Logs[0].Beside;
    }
}
