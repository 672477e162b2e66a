using CureWatch.Readings;
using static CureWatch.Tests.Readings.Feed;

namespace CureWatch.Tests.Readings;

/// <summary>Jumps, as a probe's log sees them: a spike is refused, a step is believed when it is told twice.</summary>
public class PlausibleChangeTests
{
    // A step of 10 K and 5 K a minute of air, 40 % and 20 % a minute of humidity, 10 K and 40 K a minute of panel: choices of this project.
    [Theory]
    [InlineData(1, 35, 20, 20, null)]
    [InlineData(1, 35.1, 20, 20, Disbelief.Implausible)]
    [InlineData(1, 4.9, 20, 20, Disbelief.Implausible)]
    [InlineData(3, 45, 20, 20, null)]
    [InlineData(1, 20, 80, 20, null)]
    [InlineData(1, 20, 80.1, 20, Disbelief.Implausible)]
    [InlineData(1, 20, 20, 70, null)]
    [InlineData(1, 20, 20, 70.1, Disbelief.Implausible)]
    public void Jump_IsBelieved_AsFarAsAStepAndARateGo(double minute, double airC, double humidityPct, double panelC, Disbelief? expected)
    {
        Feed feed = new(Air);
        feed.Tell(0, 20, 20, 20);
        Assert.Equal(expected, feed.Tell(minute, airC, humidityPct, panelC));
    }

    [Fact]
    public void Spike_IsRefusedAlone()
    {
        Feed feed = new(Air);
        Assert.Equal(
            [null, Disbelief.Implausible, null, null, Disbelief.Implausible, null],
            [feed.Tell(0, 20, 50), feed.Tell(1, 60, 50), feed.Tell(2, 20, 50), feed.Tell(3, 20.1, 50), feed.Tell(4, -30, 50), feed.Tell(5, 20, 50)]);
        Assert.Equal(4, feed.Log.Air.Count);
        Assert.InRange(feed.Log.Air.Last.Kelvins, 293, 294);
    }

    [Fact]
    public void Step_IsBelievedAtItsSecondReading()
    {
        Feed feed = new(Panel);
        Assert.Equal(
            [null, Disbelief.Implausible, null, null],
            [feed.Tell(0, null, null, 20), feed.Tell(0.1, null, null, 60), feed.Tell(0.2, null, null, 61), feed.Tell(0.3, null, null, 62)]);
    }

    [Fact]
    public void Spikes_ThatDisagree_AreNoStep()
    {
        Feed feed = new(Air);
        Assert.Equal(
            [null, Disbelief.Implausible, Disbelief.Implausible, null],
            [feed.Tell(0, 20, 50), feed.Tell(1, 60, 50), feed.Tell(2, -15, 50), feed.Tell(3, 21, 50)]);
    }

    [Fact]
    public void Spike_ToldTwice_IsADuplicateAndNoStep()
    {
        Feed feed = new(Air);
        feed.Tell(0, 20, 50);
        Assert.Equal([Disbelief.Implausible, Disbelief.Duplicate], [feed.Tell(1, 60, 50), feed.Tell(1, 60, 50, arrives: 2)]);
        Assert.Equal(1, feed.Log.Air.Count);
    }

    [Fact]
    public void Spike_IsForgottenOnceSomethingElseIsBelieved()
    {
        Feed feed = new(Air);
        Assert.Equal(
            [null, Disbelief.Implausible, null, Disbelief.Implausible],
            [feed.Tell(0, 20, 50), feed.Tell(1, 60, 50), feed.Tell(2, 20, 50), feed.Tell(3, 60, 50)]);
    }

    [Fact]
    public void FirstReading_HasNothingToJumpFrom() => Assert.Null(new Feed(Air).Tell(0, 75, 3));

    [Fact]
    public void Jump_AfterALongSilence_IsBelieved()
    {
        Feed feed = new(Air);
        feed.Tell(0, 20, 50);
        Assert.Null(feed.Tell(60, 5, 90));
    }
}
