using CureWatch.Readings;
using static CureWatch.Tests.Readings.Feed;

namespace CureWatch.Tests.Readings;

/// <summary>Duplicates and order by time and number, as a probe's log sees them.</summary>
public class RecentNumbersTests
{
    [Fact]
    public void Readings_OfOneInstant_AreToldApartByTheirNumbers_AndPutInTheirOrder()
    {
        Feed feed = new(Air);
        Assert.Null(feed.Tell(1, 20.2, 50, arrives: 2, sequence: 6));
        Assert.Null(feed.Tell(1, 20.3, 50, arrives: 2, sequence: 7));
        Assert.Null(feed.Tell(1, 20.1, 50, arrives: 2, sequence: 5));
        Assert.Equal(Disbelief.Duplicate, feed.Tell(1, 20.1, 50, arrives: 3, sequence: 5));
        Assert.Equal(Disbelief.Duplicate, feed.Tell(1, 20.3, 50, arrives: 3, sequence: 7));
        Assert.Equal([20.1, 20.2, 20.3], Enumerable.Range(0, feed.Log.Air.Count).Select(i => Math.Round(feed.Log.Air[i].Kelvins - 273.15, 3)));
    }

    // A gateway that stamps a batch: what was under way comes again, and all of it is known.
    [Theory]
    [InlineData(120, 120)]
    [InlineData(300, 20)]
    [InlineData(4_000, 4_000)]
    public void ManyReadings_OfAnInstant_AreEachTakenOnce(int readings, int ofAnInstant)
    {
        Feed feed = new(Air);
        for (int number = 0; number < readings; number++)
        {
            Assert.Null(TellNumber(number, Math.Round(20 + (number % 7 * 0.01), 2)));
        }

        for (int number = 0; number < readings; number++)
        {
            Assert.Equal(Disbelief.Duplicate, TellNumber(number, Math.Round(20 + (number % 7 * 0.01), 2)));
        }

        Disbelief? TellNumber(int number, double airC) => feed.Tell(1 + (number / ofAnInstant / 60.0), airC, 50, arrives: 2, sequence: number);
    }

    [Fact]
    public void Reading_OfAToldInstant_WithoutANumber_IsADuplicate()
    {
        Feed feed = new(Air);
        feed.Tell(1, 20, 50, sequence: 6);
        Assert.Equal(Disbelief.Duplicate, feed.Tell(1, 20.1, 50, arrives: 2));
    }

    [Fact]
    public void Readings_OutOfOrder_AreSortedByTheirInstants()
    {
        Feed feed = new(Air);
        feed.Tell(3, 20.3, 50, sequence: 3);
        Assert.Null(feed.Tell(1, 20.1, 50, arrives: 3, sequence: 1));
        Assert.Null(feed.Tell(2, 20.2, 50, arrives: 3, sequence: 2));
        Assert.Equal([At(1), At(2), At(3)], Enumerable.Range(0, 3).Select(i => feed.Log.Air[i].At));
    }

    [Fact]
    public void Device_WithoutAClock_ThatSendsAgain_IsKnownByItsNumber()
    {
        Feed feed = new(Air);
        Assert.Null(feed.Tell(1, 20.1, 50, sequence: 1, hasClock: false));
        Assert.Null(feed.Tell(2, 20.2, 50, sequence: 2, hasClock: false));
        Assert.Equal(Disbelief.Duplicate, feed.Tell(2.1, 20.1, 50, sequence: 1, hasClock: false));
        Assert.Equal(Disbelief.Duplicate, feed.Tell(2.2, 20.2, 50, sequence: 2, hasClock: false));
        Assert.Equal(2, feed.Log.Air.Count);
    }

    [Fact]
    public void Device_WithoutAClock_WhoseReadingWasOvertaken_IsLate()
    {
        Feed feed = new(Air);
        feed.Tell(1, 20.1, 50, sequence: 1, hasClock: false);
        feed.Tell(2, 20.3, 50, sequence: 3, hasClock: false);
        Assert.Equal(Disbelief.Late, feed.Tell(2.1, 20.2, 50, sequence: 2, hasClock: false));
        Assert.Null(feed.Tell(3, 20.4, 50, sequence: 4, hasClock: false));
    }

    [Theory]
    [InlineData(5)]
    [InlineData(5_000)]
    public void Device_WithoutAClock_ThatBeginsAnew_IsBelieved(int reached)
    {
        Feed feed = new(Air);
        for (int number = Math.Max(1, reached - 40); number <= reached; number++)
        {
            Assert.Null(feed.Tell(number * 0.01, 20 + (number % 5 * 0.1), 50, sequence: number, hasClock: false));
        }

        for (int number = 1; number <= 6; number++)
        {
            Assert.Null(feed.Tell(100 + number, 21 + (number % 5 * 0.1), 50, sequence: number, hasClock: false));
        }
    }
}
