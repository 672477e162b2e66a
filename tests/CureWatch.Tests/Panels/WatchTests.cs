using System.Diagnostics;
using CureWatch.Panels;
using static CureWatch.Tests.Panels.Sources;

namespace CureWatch.Tests.Panels;

public class WatchTests
{
    [Fact]
    public void Air_OfSeveralProbes_IsTheirMean()
    {
        ClimateSegment segment = Over(Watch([Of((0, 290, 1000), (4, 294, 1200)), Of((1, 300, 1400), (3, 302, 1600))]), 1, 3);
        Assert.Equal(new Exposure((291.0 + 300) / 2, (1050.0 + 1400) / 2, 295.5), segment.AtStart);
        Assert.Equal(new Exposure((293.0 + 302) / 2, (1150.0 + 1600) / 2, 297.5), segment.AtEnd);
    }

    [Fact]
    public void Air_OfAProbeNotHeardInTime_DoesNotCount()
    {
        Watch watch = Watch([Steady(0, 60, 293, 1200), Of((0, 303, 2000), (60, 303, 2000))]);
        Assert.Equal(293, Over(watch, 20, 21).AtStart.AirKelvins);
        Assert.Null(Over(watch, 20, 21).Unseen);
    }

    [Fact]
    public void Air_WithNoProbeHeardInTime_IsAGapOfThoseThatFellSilentLast()
    {
        Source longest = Of((-90, 280, 500), (70, 280, 500)), one = Of((0, 293, 1000), (60, 297, 1600)), other = Of((10, 303, 2000), (50, 303, 2000));
        ClimateSegment segment = Over(Watch([longest, one, other]), 30, 40);
        Assert.Equal(303, segment.AtStart.AirKelvins);
        Assert.Equal([At(0), At(10)], segment.Unseen!.Air.Select(b => b.From));
        Assert.True(segment.Unseen is { IsGapForCure: true, IsAirLost: true, IsDark: true, Before.AirKelvins: 303 });
        Assert.Equal(At(10), segment.Unseen.Since);
        Assert.Equal((303 + 293 + 280) / 3.0, segment.Alternatives[^1].AtEnd.AirKelvins, 9); // the others, as they were last
    }

    [Fact]
    public void Panel_OfSeveralProbes_IsTheColdestAtEachEnd()
    {
        Watch watch = Watch([Steady(0, 9, 293, 1000)], Of((0, 280, 0), (1, 286, 0)), Of((0, 285, 0), (1, 283, 0)));
        Assert.Equal((280.0, 283.0), (Over(watch, 0, 1).AtStart.PanelKelvins, Over(watch, 0, 1).AtEnd.PanelKelvins));
    }

    [Fact]
    public void Panel_WithoutAProbe_IsTheAir() => Assert.Equal(293, Over(Watch([Steady(0, 2, 293, 1000)]), 0, 1).AtEnd.PanelKelvins);

    [Fact]
    public void Panel_BeforeItsProbeWasFirstHeard_IsTheAir() =>
        Assert.Equal(293, Over(Watch([Steady(0, 9, 293, 1000)], Of((5, 280, 0))), 1, 2).AtStart.PanelKelvins);

    // More than two minutes for evaporation, more than thirty for cure, and never less than one and a half reports: choices of this project.
    [Theory]
    [InlineData(2, 1, false, false)]
    [InlineData(2.1, 1, true, false)]
    [InlineData(30, 1, true, false)]
    [InlineData(30.1, 1, true, true)]
    [InlineData(7.5, 5, false, false)]
    [InlineData(7.6, 5, true, false)]
    [InlineData(60, 40, false, false)]
    [InlineData(60.1, 40, true, true)]
    public void Stretch_BetweenTwoReadings_IsAGap_WhenItIsLongAndAReportIsMissing(double minutes, double every, bool forEvaporation, bool forCure)
    {
        Source air = Every(every, (0, 293, 1000), (minutes, 293, 1000));
        Unseen? unseen = Over(Watch([air]), 0, 1).Unseen;
        Assert.Equal((forEvaporation, forCure), (unseen?.IsGapForEvaporation ?? false, unseen?.IsGapForCure ?? false));

        Source panel = Every(every, (0, 293, 0), (minutes, 293, 0));
        unseen = Over(Watch([Steady(0, 70, 293, 1000)], panel), 0, 1).Unseen;
        Assert.Equal((forEvaporation, forCure), (unseen?.IsGapForEvaporation ?? false, unseen?.IsGapForCure ?? false));
    }

    [Fact]
    public void Climate_BeforeTheFirstReading_IsUnknown()
    {
        Watch watch = Watch([Of((5, 293, 1000))]);
        Assert.Null(watch.Over(At(3), At(4), At(5)));
        Assert.Equal(At(5), watch.FirstAt);
        Assert.Null(Watch([]).FirstAt);
    }

    [Fact]
    public void Knots_AreEveryProbesInstants_InOrder_EachOnce()
    {
        Watch watch = Watch([Of((0, 293, 1), (2, 293, 1), (4, 293, 1))], Of((1, 293, 0), (2, 293, 0), (3, 293, 0), (9, 293, 0)));
        Assert.Equal([At(1), At(2), At(3), At(4)], watch.Knots(At(0), At(8)));
    }

    [Fact]
    public void SettledTo_IsWhereTheSlowestProbeWasHeard() =>
        Assert.Equal(At(7), Watch([Steady(0, 9, 293, 1), Steady(0, 7, 293, 1)], Steady(0, 8, 290)).SettledTo(At(10)));

    [Fact]
    public void SettledTo_WaitsForAProbeHalfAnHour()
    {
        Source heard = Steady(0, 60, 293, 1), lost = Steady(0, 20, 293, 1);
        Assert.Equal(At(20), Watch([heard, lost]).SettledTo(At(50)));
        Assert.Equal(At(60), Watch([heard, lost]).SettledTo(At(60)));
        Assert.Equal(At(20), Watch([heard], Steady(0, 20, 290)).SettledTo(At(49)));
        Assert.Equal(At(60), Watch([heard], Steady(0, 20, 290)).SettledTo(At(60)));
        Assert.Equal(At(20), Watch([lost]).SettledTo(At(60)));
    }

    [Fact]
    public void IsLost_WithoutAnyAirProbe()
    {
        Source heard = Steady(0, 60, 293, 1), lost = Steady(0, 20, 293, 1);
        Assert.False(Watch([heard, lost]).IsLostAt(At(60)));
        Assert.True(Watch([lost, lost]).IsLostAt(At(60)));
        Assert.False(Watch([heard], heard, lost).IsLostAt(At(60)));
    }

    [Fact]
    public void Knots_OfWeeks_AreFoundAtOnce()
    {
        // A month at a reading every five seconds.
        Source air = Of([.. Enumerable.Range(0, 30 * 24 * 720).Select(i => (i / 12.0, 293.0, 1000.0))]);
        var watch = Stopwatch.StartNew();
        Assert.Equal(air.Samples.Count - 1, Watch([air]).Knots(At(0), At(1e6)).Count);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(2), $"{watch.Elapsed}");
    }

    private static ClimateSegment Over(Watch watch, double from, double to) =>
        watch.Over(At(from), At(to), At(to)) ?? throw new InvalidOperationException("Nothing measured.");
}
