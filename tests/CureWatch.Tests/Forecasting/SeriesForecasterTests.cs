using CureWatch.Forecasting;

namespace CureWatch.Tests.Forecasting;

public class SeriesForecasterTests
{
    private static readonly SeriesForecaster Fresh = SeriesForecaster.New(4, [1, 6, 24]);

    [Fact]
    public void FirstHour_IsHeld_InAWideBand()
    {
        SeriesForecast forecast = Fresh.Hear(new HourValue(480_000, 291)).From(480_000, 291);

        Assert.Equal(291, forecast.LikelyAt(12));
        (double of80, double of90) = forecast.HalfWidthsAt(12);
        Assert.InRange(of80, 2, 6);
        Assert.True(of90 > of80);
    }

    [Fact]
    public void Band_GrowsFromNothingAtThePresent()
    {
        SeriesForecast forecast = Fresh.Hear(new HourValue(480_000, 291)).From(480_000, 291);

        double[] widths = [.. new[] { 0, 0.5, 1, 3, 6, 12, 24, 48 }.Select(h => forecast.HalfWidthsAt(h).Of80)];
        Assert.Equal(0, widths[0]);
        Assert.Equal(widths.Order(), widths);
        Assert.Equal(widths[^2], widths[^1]);
    }

    [Fact]
    public void Present_BelowItsCourse_ComesBackToIt()
    {
        SeriesForecaster forecaster = Heard(new Weather(4, 0.8).Hours(20));
        double usual = forecaster.Course!.At(480_600);

        SeriesForecast forecast = forecaster.From(480_600, usual - 3);

        Assert.InRange(forecaster.Course.At(480_601) - forecast.LikelyAt(1), 1.8, 3);
        Assert.InRange(forecaster.Course.At(480_648) - forecast.LikelyAt(48), -0.1, 0.4);
    }

    [Fact]
    public void SomethingThatWandersFreely_IsHeld()
    {
        var random = new Random(5);
        double value = 290;
        SeriesForecaster forecaster = Fresh;
        for (int hour = 0; hour < 20 * 24; hour++)
        {
#pragma warning disable CA5394 // a walk, no secrets
            value += random.NextDouble() - 0.5;
#pragma warning restore CA5394
            forecaster = forecaster.Hear(new HourValue(480_000 + hour, value));
        }

        SeriesForecast forecast = forecaster.From(480_480, value);

        Assert.True(Math.Abs(forecast.LikelyAt(6) - value) < Math.Abs(forecast.ModelAt(6) - value) || forecast.Leads[1].PersistenceShare > 0.3);
    }

    [Fact]
    public void Memory_IsBounded_HoweverLongItListens()
    {
        SeriesForecaster forecaster = Heard(new Weather(6, 0.9).Hours(60));

        Assert.Equal(DailyCourse.Window, forecaster.Past.Length);
        Assert.Equal(24, forecaster.Pending.Length);
        Assert.All(forecaster.Leads, l => Assert.Equal(300, l.Told.Count - l.First));
        Assert.All(forecaster.Leads, l => Assert.InRange(l.Told.Count, 300, 500));
    }

    private static SeriesForecaster Heard(IEnumerable<HourMean> hours) =>
        hours.Aggregate(Fresh, (f, h) => f.Hear(new HourValue(h.Hour, h.Kelvins)));
}
