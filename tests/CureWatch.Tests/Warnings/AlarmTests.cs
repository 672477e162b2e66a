using CsCheck;
using CureWatch.Warnings;

namespace CureWatch.Tests.Warnings;

public class AlarmTests
{
    private static readonly AlarmRule Rule = AlarmRule.Of(WarningKind.HumidityHigh) with
    {
        OnDelay = TimeSpan.FromMinutes(10), OffDelay = TimeSpan.FromMinutes(15), Deadband = 2, LeastLooks = 2,
    };

    [Fact]
    public void Normal_InsideTheLimitOrOnIt_StaysNormal() => Assert.IsType<Alarm.Normal>(new AlarmRun(Rule).Look(0, -5).Look(1, 0).Look(2, double.NaN).Alarm);

    [Fact]
    public void Cause_ThatLastsTheOnDelay_IsToldAtItsEnd() => Assert.Equal([10], Minutely(0, 12, 3).Raised);

    [Fact]
    public void Cause_ShorterThanTheOnDelay_IsNotTold()
    {
        AlarmRun run = Minutely(0, 4, 3);
        Assert.Empty(Minutely(5, 60, -5, run).Raised);
        Assert.IsType<Alarm.Normal>(run.Alarm);
    }

    [Fact]
    public void Cause_BorneOutByOneMeasurementOnly_WaitsForASecond()
    {
        Assert.Empty(new AlarmRun(Rule).Look(0, 3).Until(60).Raised);
        Assert.Equal([30], new AlarmRun(Rule).Look(0, 3).Look(30, 3).Raised);
        Assert.Empty(new AlarmRun(Rule).Look(0, 3).Look(30, -1).Raised);
    }

    [Fact]
    public void Cause_BorneOutByEnoughMeasurements_IsToldThoughNoneFollows() => Assert.Equal([10], new AlarmRun(Rule).Look(0, 3).Look(1, 3).Until(60).Raised);

    [Fact]
    public void Cause_BeyondInHalfOfTheMeasurements_IsNoMajority()
    {
        Assert.Empty(new AlarmRun(Rule).Look(0, 1).Look(5, -1).Look(9, 1).Look(9.5, -1).Until(60).Raised);
        Assert.Equal([10], new AlarmRun(Rule).Look(0, 1).Look(5, -1).Look(9, 1).Until(60).Raised);
    }

    [Fact]
    public void Cause_JudgedAwayByAMeasurementBeyond_StartsAgainWithIt()
    {
        DateTimeOffset since = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero), at = since + TimeSpan.FromMinutes(10);
        Assert.Equal(new Alarm.Pending(at, 1, 1), new Alarm.Pending(since, 4, 1).Look(at, 1, Rule));
        Assert.Equal(new Alarm.Normal(), new Alarm.Pending(since, 4, 1).Look(at, -1, Rule));
    }

    [Theory]
    [InlineData(-1.99, false)]
    [InlineData(-2, true)]
    public void Raised_Returns_OnlyFromTheDeadbandOn(double excess, bool returns)
    {
        AlarmRun run = Minutely(0, 12, 3);
        Minutely(13, 60, excess, run);
        Assert.Equal(returns ? [28.0] : [], run.Cleared);
        Assert.Single(run.Raised);
    }

    [Fact]
    public void Raised_WithoutMeasurements_StaysRaised() => Assert.Empty(Minutely(0, 12, 3).Until(10000).Cleared);

    [Fact]
    public void Returning_BackForASingleMeasurement_StaysTold()
    {
        AlarmRun run = Minutely(13, 60, 3, Minutely(0, 12, 3).Look(12.5, -4));
        Assert.Equal([10], run.Raised);
        Assert.Empty(run.Cleared);
        Assert.IsType<Alarm.Raised>(run.Alarm);
    }

    [Fact]
    public void Noise_OnTheLimit_IsOneWarningATrueEpisode() => Gen.Select(Episode.Array[1, 3], Gen.Int[0, 1_000_000]).Sample((episodes, seed) =>
    {
        var noise = new Random(seed);
        AlarmRun run = new(Rule);
        double minute = 0;
        foreach ((double plateau, double amplitude, double ramp, double lasts) in episodes)
        {
            foreach (double truth in Truth(plateau, ramp, lasts))
            {
                run.Look(minute++, truth + (amplitude * ((2 * noise.NextDouble()) - 1)));
            }
        }

        Assert.Equal(episodes.Length, run.Raised.Count);
        Assert.Equal(episodes.Length, run.Cleared.Count);
    });

    // How far above the limit, noise up to the deadband, minutes to get there, minutes it lasts.
    private static readonly Gen<(double Plateau, double Amplitude, double Ramp, double Lasts)> Episode =
        Gen.Select(Gen.Double[0.6, 10], Gen.Double[0, 2], Gen.Double[1, 180], Gen.Double[45, 300]);

    private static IEnumerable<double> Truth(double plateau, double ramp, double lasts)
    {
        const double Inside = -8;
        double rise = (plateau - Inside) / ramp;
        for (double at = 0; at < (2 * ramp) + lasts + 60; at++)
        {
            double into = Math.Min(at, (2 * ramp) + lasts - at);
            yield return Math.Clamp(Inside + (rise * into), Inside, plateau);
        }
    }

    private static AlarmRun Minutely(int from, int to, double excess, AlarmRun? run = null)
    {
        run ??= new AlarmRun(Rule);
        for (int minute = from; minute <= to; minute++)
        {
            run.Look(minute, excess);
        }

        return run;
    }
}
