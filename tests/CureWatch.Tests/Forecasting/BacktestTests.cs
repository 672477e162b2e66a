using CureWatch.Forecasting;

namespace CureWatch.Tests.Forecasting;

public class BacktestTests
{
    private const int Seeds = 20;
    private const int Leads = 24;
    private const int Days = 60;

    [Theory]
    [InlineData(0.7)]
    [InlineData(0.9)]
    public void Forecast_OfADayWithFadingNoise_IsNextToTheBestThereIs(double persistence)
    {
        Backtest[] runs = [.. Enumerable.Range(1, Seeds).Select(seed => Backtest.Over(new Weather(seed, persistence).Hours(Days), Leads))];

        for (int lead = 1; lead <= Leads; lead++)
        {
            double least = Weather.LeastRmse(persistence, lead);
            double[] ratios = [.. runs.Select(r => r.Leads[lead - 1].Temperature!.RmseK / least).Order()];
            Assert.InRange(ratios[Seeds / 2], 0.9, 1.10);
            Assert.InRange(ratios[^1], 0.9, 1.25);
            Assert.InRange(runs.Average(r => r.Leads[lead - 1].Temperature!.Coverage80), 0.77, 0.83);
        }
    }

    /// <summary>A level that follows misses must not swing because it hears of them days later.</summary>
    [Theory]
    [InlineData(0.7)]
    [InlineData(0.9)]
    public void Bands_OfDaysAhead_HoldWhatTheySay(double persistence)
    {
        Backtest[] runs = [.. Enumerable.Range(31, 4).Select(seed => Backtest.Over(new Weather(seed, persistence).Hours(100), Backtest.LongestLead))];
        foreach (int lead in new[] { 24, 36, 48, 60, 72 })
        {
            Assert.InRange(runs.Average(r => r.Leads[lead - 1].Temperature!.Coverage80), 0.77, 0.83);
        }
    }

    [Fact]
    public void Forecast_OfMoisture_IsScoredAsDewPoint_AndCoveredToo()
    {
        Backtest run = Backtest.Over(new Weather(1, 0.9).Hours(90), 12);

        // 2 % of vapour pressure a kelvin of departure is 0.3 K of dew point at 8 °C: the same weather, on another scale.
        double scale = run.Leads[5].DewPoint!.RmseK / run.Leads[5].Temperature!.RmseK;
        Assert.InRange(scale, 0.25, 0.35);
        Assert.InRange(run.Leads[5].DewPoint!.Coverage80, 0.75, 0.85);
    }

    [Fact]
    public void Issued_CountsFromTheFourthDayOn()
    {
        Backtest run = Backtest.Over(new Weather(1, 0.9).Hours(5), 3);

        Assert.Equal((5 * 24) - DailyCourse.LeastSpan, run.Issued);
    }

    [Fact]
    public void MissingHours_AreNotScored_AndNothingBreaks()
    {
        HourMean[] whole = [.. new Weather(2, 0.9).Hours(30)];
        HourMean[] torn = [.. whole.Where((h, i) => i % 50 > 9 && i is < 300 or > 400)];

        Backtest run = Backtest.Over(torn, 24);

        Assert.All(run.Leads, l => Assert.InRange(l.Temperature!.RmseK, 0.3, 3));
    }

    [Fact]
    public void TooFewHours_HaveNoScore() => Assert.Null(Backtest.Over(new Weather(3, 0.9).Hours(2), 1).Leads[0].Temperature);

    [Fact]
    public void Lead_OutsideItsRange_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Backtest.Over([], 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Backtest.Over([], Backtest.LongestLead + 1));
    }
}
