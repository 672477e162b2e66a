using CsCheck;
using CureWatch.Readings;
using static CureWatch.Tests.Readings.Feed;

namespace CureWatch.Tests.Readings;

public class ProbeLogTests
{
    [Theory]
    [InlineData(20.0, null, null)]
    [InlineData(null, 50.0, null)]
    [InlineData(null, null, 20.0)]
    public void AirReading_LackingWhatAnAirProbeMeasures_IsMalformed(double? airC, double? humidityPct, double? panelC) =>
        Assert.Equal(Disbelief.Malformed, new Feed(Air).Tell(0, airC, humidityPct, panelC));

    [Fact]
    public void PanelReading_WithoutAPanelTemperature_IsMalformed() => Assert.Equal(Disbelief.Malformed, new Feed(Panel).Tell(0, 20, 50));

    [Theory]
    [InlineData(-40.1, 50)]
    [InlineData(80.1, 50)]
    [InlineData(double.NaN, 50)]
    [InlineData(20, 0)]
    [InlineData(20, -3)]
    [InlineData(20, 102.1)]
    [InlineData(20, double.NaN)]
    [InlineData(20, double.PositiveInfinity)]
    [InlineData(20, 50, 200.1)]
    [InlineData(20, 50, double.NaN)]
    public void Reading_NoSensorCanHaveTaken_IsOutOfRange(double airC, double humidityPct, double? panelC = null) =>
        Assert.Equal(Disbelief.OutOfRange, new Feed(Air).Tell(0, airC, humidityPct, panelC));

    [Theory]
    [InlineData(-40, 0.1)]
    [InlineData(80, 100)]
    [InlineData(20, 50, -40.0)]
    [InlineData(20, 50, 200.0)]
    public void Reading_AtTheEndOfASensorsRange_IsBelieved(double airC, double humidityPct, double? panelC = null) =>
        Assert.Null(new Feed(Air).Tell(0, airC, humidityPct, panelC));

    [Theory]
    [InlineData(15, null)]
    [InlineData(15.01, Disbelief.Late)]
    [InlineData(-2, null)]
    [InlineData(-2.01, Disbelief.Future)]
    public void Reading_IsBelievedAQuarterOfAnHourLate_AndTwoMinutesEarly(double minutesLate, Disbelief? expected) =>
        Assert.Equal(expected, new Feed(Air).Tell(60, 20, 50, arrives: 60 + minutesLate));

    [Fact]
    public void Reading_FromAClockThatRunsAhead_CountsFromItsArrival()
    {
        Feed feed = new(Air);
        Assert.Null(feed.Tell(1.5, 20, 50, arrives: 0));
        Assert.Equal(Start, feed.Log.Air.Last.At);
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(5)]
    [InlineData(16)]
    public void Reading_FromAClockThatRunsAhead_ToldAgain_IsADuplicate(double againAt)
    {
        Feed feed = new(Air);
        feed.Tell(1.5, 20, 50, arrives: 0);
        feed.Tell(1.6, 20.1, 50, arrives: 0.1);
        Assert.Equal(Disbelief.Duplicate, feed.Tell(1.5, 20, 50, arrives: againAt));
        Assert.Null(feed.Tell(1.7, 20.2, 50, arrives: againAt));
        Assert.Equal(3, feed.Log.Air.Count);
    }

    [Fact]
    public void Reading_OfAnInstantAlreadyTold_IsADuplicate_WhateverItSays()
    {
        Feed feed = new(Air);
        feed.Tell(0, 20, 50);
        feed.Tell(1, 21, 50);
        Assert.Equal(Disbelief.Duplicate, feed.Tell(0, 22, 55, arrives: 2));
        Assert.Equal(Disbelief.Duplicate, feed.Tell(1, 21, 50, arrives: 2));
        Assert.Equal(2, feed.Log.Air.Count);
    }

    [Fact]
    public void Reading_ThatIsLate_IsPutInItsPlace()
    {
        Feed feed = new(Air);
        feed.Tell(0, 20, 50);
        feed.Tell(10, 22, 50);
        Assert.Null(feed.Tell(5, 21, 50, arrives: 11));
        Assert.Equal([At(0), At(5), At(10)], Enumerable.Range(0, 3).Select(i => feed.Log.Air[i].At));
    }

    [Fact]
    public void Readings_InAnyOrder_GiveTheSameLog() => Gen.Shuffle(Enumerable.Range(0, 12).ToArray()).Sample(order =>
    {
        Feed feed = new(Air);
        foreach (int minute in order)
        {
            Assert.Null(feed.Tell(minute, 20 + (minute / 10.0), 50 - minute, arrives: 12));
        }

        Assert.Equal(Enumerable.Range(0, 12).Select(m => (At(m), 50.0 - m)), Enumerable.Range(0, 12).Select(i => (feed.Log.Air[i].At, feed.Log.Air[i].HumidityPct)));
    });

    [Theory]
    [InlineData(5, 0)]
    [InlineData(12, 10)]
    [InlineData(-1, -1)]
    public void Reading_ChangesWhatIsKnown_FromTheReadingBeforeItOn(double minute, double changesFrom)
    {
        Feed feed = new(Air);
        feed.Tell(0, 20, 50);
        feed.Tell(10, 22, 50);
        Assert.Equal(At(changesFrom), feed.Log.ChangesFrom(new RawReading("bay-1", "air-1", At(minute), At(12), 21, 50, null)));
    }

    [Fact]
    public void Offsets_AreAddedToWhatTheirProbeMeasures()
    {
        Feed air = new(Air with { OffsetTemperatureK = 0.5, OffsetHumidityPct = -3 }), panel = new(Panel with { OffsetTemperatureK = -1.5 });
        air.Tell(0, 20, 50, panelC: 18);
        panel.Tell(0, null, null, 18);
        Assert.Equal(293.65, air.Log.Air.Last.Kelvins, 9);
        Assert.Equal(47, air.Log.Air.Last.HumidityPct, 9);
        Assert.Equal(291.15, air.Log.Panel.Last.Kelvins, 9);
        Assert.Equal(289.65, panel.Log.Panel.Last.Kelvins, 9);
        Assert.Equal(0, panel.Log.Air.Count);
    }

    [Theory]
    [InlineData(0.4, 0, 1)]
    [InlineData(2, -5, 1)]
    [InlineData(99, 4, 100)]
    public void Humidity_CorrectedOutOfItsScale_IsKeptOnIt(double told, double offset, double expected)
    {
        Feed feed = new(Air with { OffsetHumidityPct = offset });
        Assert.Null(feed.Tell(0, 20, told));
        Assert.Equal(expected, feed.Log.Air.Last.HumidityPct);
    }

    // Saturation pressure at 20 °C over water: 2339.3 Pa (IAPWS-95 steam tables, from memory).
    [Fact]
    public void VapourPressure_IsThatOfTheCorrectedReading()
    {
        Feed feed = new(Air with { OffsetTemperatureK = 1, OffsetHumidityPct = 2 });
        feed.Tell(0, 19, 48);
        Assert.Equal(0.5 * 2339.3, feed.Log.Air.Last.VapourPressurePa, 0.5);
    }

    [Fact]
    public void Probe_IsSilentThreeReportsAfterItsLastBelievedReading()
    {
        Feed feed = new(Air with { Every = TimeSpan.FromMinutes(2) });
        Assert.Equal(At(6), feed.Log.SilentAt);
        feed.Tell(4, 20, 50);
        feed.Tell(5, 20, 0);
        Assert.Equal(At(10), feed.Log.SilentAt);
        feed.Tell(2, 20, 51, arrives: 3);
        Assert.Equal(At(10), feed.Log.SilentAt);
    }
}
