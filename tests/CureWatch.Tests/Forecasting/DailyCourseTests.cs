using CureWatch.Forecasting;

namespace CureWatch.Tests.Forecasting;

public class DailyCourseTests
{
    [Fact]
    public void Fit_OfAPureCourse_FindsIt()
    {
        DailyCourse course = DailyCourse.Fit(Hours(14 * 24, Pure))!;

        for (int hour = 0; hour < 48; hour++)
        {
            Assert.Equal(Pure(480_000 + hour), course.At(480_000 + hour), 0.1); // the ridge draws amplitudes by 1 in 75
        }
    }

    [Fact]
    public void At_BetweenTwoHours_LiesOnTheSameWave()
    {
        DailyCourse course = DailyCourse.Fit(Hours(14 * 24, Pure))!;

        Assert.Equal(Pure(480_006.5), course.At(480_006.5), 0.05);
    }

    // What fades by a tenth an hour is found to, over many draws, without the bias that the mean of few days makes.
    [Fact]
    public void Persistence_IsFoundWithoutBias()
    {
        double mean = Enumerable.Range(1, 60)
            .Select(seed => new Weather(seed, 0.9).Hours(14).Select(h => new HourValue(h.Hour, h.Kelvins)).ToArray())
            .Average(hours => DailyCourse.Fit(hours)!.Persistence);

        Assert.InRange(mean, 0.88, 0.92);
    }

    [Fact]
    public void Fit_OfLessThanThreeDays_IsNone() => Assert.Null(DailyCourse.Fit(Hours(DailyCourse.LeastSpan, Pure)));

    [Fact]
    public void Fit_OfHoursTooFarApart_IsNone() => Assert.Null(DailyCourse.Fit([.. Hours(80, Pure).Where((_, i) => i % 3 == 0)]));

    [Fact]
    public void Fit_OfAConstant_StaysWhereItIs()
    {
        DailyCourse course = DailyCourse.Fit(Hours(100, _ => 290))!;

        Assert.Equal(290, course.At(480_123), 1e-9);
        Assert.InRange(course.Persistence, 0, 1);
    }

    private static double Pure(double hour) => 288 + (4 * Math.Cos(2 * Math.PI * (hour - 15) / 24)) + Math.Sin(4 * Math.PI * hour / 24);

    private static HourValue[] Hours(int count, Func<double, double> value) =>
        [.. Enumerable.Range(480_000, count).Select(h => new HourValue(h, value(h)))];
}
