using CureWatch.TimeWindows;

namespace CureWatch.Tests.TimeWindows;

public class ChanceTests
{
    private static readonly DateTimeOffset Day = new(2026, 5, 4, 0, 0, 0, TimeSpan.Zero);

    // What a bound says is what the chance says there: 5, 50 and 95 % by the contract of the windows.
    [Theory]
    [InlineData(6, 8, 11)]
    [InlineData(6, 7.99, 8)]
    [InlineData(0, 1, 60)]
    public void By_AtEachBound_IsWhatTheBoundSays(double earliest, double likely, double latest)
    {
        var bounds = new TimeBounds(At(earliest), At(likely), At(latest));
        Assert.Equal(0.05, bounds.By(At(earliest)), 6);
        Assert.Equal(0.5, bounds.By(At(likely)), 6);
        Assert.Equal(0.95, bounds.By(At(latest)), 6);
    }

    [Fact]
    public void By_AKnownInstant_IsAllOrNothing()
    {
        TimeBounds known = TimeBounds.Known(At(8));
        Assert.Equal(0, known.By(At(8).AddTicks(-1)));
        Assert.Equal(1, known.By(At(8)));
    }

    // Unknown is never treated as fine: what may never come is not made likely by waiting.
    [Fact]
    public void By_WithoutABound_NeverPassesWhatIsKnown()
    {
        Assert.Equal(0.5, new TimeBounds(At(6), At(8), null).By(At(8_000)), 6);
        Assert.Equal(0.05, new TimeBounds(At(6), null, null).By(At(8_000)), 6);
        Assert.Equal(0, new TimeBounds(null, null, null).By(At(8_000)));
    }

    [Fact]
    public void By_ALaterInstant_IsNeverLess()
    {
        var random = new Random(417);
        for (int i = 0; i < 2_000; i++)
        {
            double earliest = Between(random, 0, 20), likely = earliest + Between(random, 0, 5), latest = likely + Between(random, 0, 9);
            var bounds = new TimeBounds(At(earliest), Between(random, 0, 1) < 0.1 ? null : At(likely), Between(random, 0, 1) < 0.2 ? null : At(latest));
            double sooner = Between(random, -5, 40), later = sooner + Between(random, 0, 10);
            Assert.True(bounds.By(At(sooner)) <= bounds.By(At(later)), $"{bounds} at {sooner} and {later}");
            Assert.InRange(bounds.By(At(sooner)), 0, 1);
        }
    }

    private static double Between(Random random, double least, double most) => least + ((most - least) * random.NextDouble());

    private static DateTimeOffset At(double hours) => Day + TimeSpan.FromHours(hours);
}
