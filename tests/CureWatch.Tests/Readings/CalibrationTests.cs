using CureWatch.Readings;
using static CureWatch.Tests.Readings.Feed;

namespace CureWatch.Tests.Readings;

public class CalibrationTests
{
    private static readonly Probe Calibrated = Air with
    {
        OffsetTemperatureK = 0.5,
        OffsetHumidityPct = -3,
        Calibrations = [new Calibration(At(10), -1, 2, "beside a salt cell"), new Calibration(At(20), 0, 0)],
    };

    [Theory]
    [InlineData(9.99, 20.5, 47)]
    [InlineData(10, 19, 52)]
    [InlineData(19.99, 19, 52)]
    [InlineData(20, 20, 50)]
    public void Calibration_HoldsForWhatIsMeasuredFromItsDateOn_InPlaceOfTheOneBefore(double minute, double celsius, double percent)
    {
        var feed = new Feed(Calibrated);
        Assert.Null(feed.Tell(minute, 20, 50));
        Assert.Equal(celsius, feed.Log.Air.Last.Kelvins - 273.15, 1e-9);
        Assert.Equal(percent, feed.Log.Air.Last.HumidityPct, 1e-9);
    }

    [Fact]
    public void ReadingMeasuredBefore_ThatComesAfter_IsCorrectedAsThen()
    {
        var feed = new Feed(Calibrated);
        feed.Tell(12, 20, 50);
        Assert.Null(feed.Tell(9, 20, 50, arrives: 12.5));
        Assert.Equal([20.5, 19.0], [feed.Log.Air[0].Kelvins - 273.15, feed.Log.Air[1].Kelvins - 273.15], (a, b) => Math.Abs(a - b) < 1e-9);
    }

    [Fact]
    public void PanelProbe_IsCalibratedToo()
    {
        var feed = new Feed(Panel with { Calibrations = [new Calibration(At(10), 2, 0)] });
        feed.Tell(9, null, null, 20);
        feed.Tell(10, null, null, 20);
        Assert.Equal(2, feed.Log.Panel[1].Kelvins - feed.Log.Panel[0].Kelvins, 1e-9);
    }
}
