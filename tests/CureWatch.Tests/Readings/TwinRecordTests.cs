using CureWatch.Readings;

namespace CureWatch.Tests.Readings;

public class TwinRecordTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 1, 0, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(0.8)]
    [InlineData(-1.5)]
    public void DriftSinceADay_IsFoundWithItsDay_ThroughNoise(double byK)
    {
        var random = new Random(7);
        TwinRecord record = Of(20, day => (day >= 12 ? byK : 0) + ((random.NextDouble() - 0.5) * 0.6));
        TwinDifference now = record.Now()!;
        Assert.Equal(byK, now.Kelvins, 0.1);
        Assert.InRange(now.StandardKelvins, 0.01, 0.1);
        Assert.Equal(Start.AddDays(12), now.KelvinsSince, TimeSpan.FromHours(7));
        Assert.True(now.IsWarmOrCold(0.6));
        Assert.False(now.IsMoistOrDry(4));
    }

    [Fact]
    public void DifferenceWithinTheLimits_IsNotWorthACalibration() => Assert.False(Of(10, _ => 0.2).Now()!.IsWarmOrCold(0.6));

    [Fact]
    public void NightOfADoorBesideOneOfThem_IsNoDrift()
    {
        TwinDifference now = Of(10, day => day is > 9.4 and < 9.6 ? -6 : 0.1).Now()!;
        Assert.Equal(0.1, now.Kelvins, 0.05);
    }

    [Fact]
    public void TooShortAComparison_SaysNothing()
    {
        Assert.Null(TwinRecord.None.Now());
        Assert.Null(Of(0.2, _ => 1).Now());
    }

    [Fact]
    public void Record_OfAYear_StaysSmall_AndForgetsWhatIsOld()
    {
        TwinDifference now = Of(365, day => day < 300 ? 3 : 0).Now()!;
        Assert.Equal(0, now.Kelvins, 1e-9);
    }

    private static TwinRecord Of(double days, Func<double, double> aboveK)
    {
        TwinRecord record = TwinRecord.None;
        for (int i = 0; i < days * 288; i++)
        {
            record = record.With(Start.AddMinutes(5 * i), aboveK(i / 288.0), 0);
        }

        return record;
    }
}
