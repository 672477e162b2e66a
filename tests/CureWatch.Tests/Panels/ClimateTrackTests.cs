using CsCheck;
using CureWatch.Panels;
using static CureWatch.Tests.Panels.Sources;

namespace CureWatch.Tests.Panels;

public class ClimateTrackTests
{
    [Fact]
    public void Track_RunsFromReadingToReading_OfEveryProbe()
    {
        Watch watch = Watch([Of((0, 290, 1000), (2, 292, 1000), (4, 294, 1000))], Of((1, 280, 0), (3, 284, 0), (5, 284, 0)));
        ClimateTrack track = ClimateTrack.Blank.Extend(watch, At(5));
        Assert.Equal([(At(0), At(1)), (At(1), At(2)), (At(2), At(3)), (At(3), At(4))], track.All().Select(s => (s.Start, s.End)));
        Assert.Equal(At(4), track.SettledTo);
        Assert.Equal(282, track.ExposureAt(At(2)).PanelKelvins);
        Assert.Equal(293, track.ExposureAt(At(3)).AirKelvins);
    }

    [Fact]
    public void Track_WithNothingNew_StaysTheSame()
    {
        Watch watch = Watch([Steady(0, 9, 293, 1000)]);
        ClimateTrack track = ClimateTrack.Blank.Extend(watch, At(9));
        Assert.Same(track, track.Extend(watch, At(12)));
        Assert.Same(ClimateTrack.Blank, ClimateTrack.Blank.Extend(Watch([]), At(9)));
    }

    [Fact]
    public void Track_ExtendedAtAnyInstants_IsTheSame() => Gen.Select(Days, Gen.Int[1, 59].Array[0, 6]).Sample((day, stops) =>
    {
        ClimateTrack stepwise = ClimateTrack.Blank;
        foreach (int stop in stops.Order().Append(60))
        {
            stepwise = stepwise.Extend(Heard(day, stop), At(stop));
        }

        Assert.Equal(ClimateTrack.Blank.Extend(Heard(day, 60), At(60)).All(), stepwise.All());
    });

    [Fact]
    public void Track_RewoundToTheReadingBeforeALateOne_IsTheOneOfReadingsInOrder() => Gen.Select(Days, Gen.Int[1, 60]).Sample((day, which) =>
    {
        int late = which % (day.Air.Length - 1);
        (double Minute, double Kelvins, double Pa)[] without = [.. day.Air.Where((_, i) => i != late)];
        ClimateTrack track = ClimateTrack.Blank.Extend(Watch([Of(without)], Of(day.Panel)), At(60));
        track = track.RewindTo(At(day.Air[Math.Max(0, late - 1)].Minute)).Extend(Heard(day, 60), At(60));
        Assert.Equal(ClimateTrack.Blank.Extend(Heard(day, 60), At(60)).All(), track.All());
    });

    [Fact]
    public void RewindTo_AnInstantNotSettled_ChangesNothing()
    {
        ClimateTrack track = ClimateTrack.Blank.Extend(Watch([Steady(0, 9, 293, 1000)]), At(9));
        Assert.Same(track, track.RewindTo(At(9)));
        Assert.Equal(At(4), track.RewindTo(At(4.5)).SettledTo);
        Assert.Null(track.RewindTo(At(-1)).SettledTo);
    }

    [Fact]
    public void Provisional_HoldsTheNewestValues_UpToNow()
    {
        Watch watch = Watch([Of((0, 290, 1000), (3, 293, 1300))], Of((0, 280, 0), (2, 282, 0)));
        ClimateTrack track = ClimateTrack.Blank.Extend(watch, At(4));
        Assert.Equal(At(2), track.SettledTo);
        IReadOnlyList<ClimateSegment> provisional = track.Provisional(watch, At(4));
        Assert.Equal([(At(2), At(3)), (At(3), At(4))], provisional.Select(s => (s.Start, s.End)));
        Assert.Equal(new Exposure(293, 1300, 282), provisional[^1].AtEnd);
        Assert.Equal(292, provisional[0].AtStart.AirKelvins, 9);
        Assert.Empty(track.Provisional(watch, At(2)));
        Assert.Empty(ClimateTrack.Blank.Provisional(Watch([]), At(4)));
    }

    [Fact]
    public void Provisional_WithAPanelProbeThatIsWaitedFor_IsUnconfirmedFromItsLastReadingOn()
    {
        Watch watch = Watch([Steady(0, 34, 295, 1400)], Of((0, 280, 0), (5, 282, 0)));
        ClimateTrack track = ClimateTrack.Blank.Extend(watch, At(34));
        Assert.Equal(At(5), track.SettledTo);
        IReadOnlyList<ClimateSegment> gap = track.Provisional(watch, At(34));
        Assert.Equal((At(34), new Exposure(295, 1400, 282)), (gap[^1].End, gap[^1].AtEnd));
        Assert.All(gap, s => Assert.True(s is { IsUnconfirmed: true, Unseen: { IsGapForCure: false, IsDark: false } }));
    }

    // It was 13 K below its air, as a cold car is: 2 K that any panel may be, 3 K that may last, and what has not faded of the rest.
    [Fact]
    public void PanelProbe_ThatIsGivenUp_IsSettledWithoutIt_AsFarFromTheAirAsItMayBe()
    {
        Watch watch = Watch([Steady(0, 60, 295, 1400)], Of((0, 280, 0), (5, 282, 0)));
        ClimateTrack track = ClimateTrack.Blank.Extend(watch, At(60));
        Assert.Equal(At(60), track.SettledTo);
        Assert.True(track.Segments[^1] is { IsUnconfirmed: false, Unseen: { IsGapForCure: true, IsAirLost: false, IsDark: false } });
        Assert.Equal(295, track.Segments[^1].AtEnd.PanelKelvins, 9);
        double[] panels = [.. track.Segments[^1].Alternatives.Select(a => a.AtEnd.PanelKelvins)];
        Assert.Equal(295 - 2 - 3 - (10 * Math.Exp(-55 / 240.0)), panels.Min(), 9);
        Assert.Equal(295 + 2, panels.Max(), 9);

        Watch back = Watch([Steady(0, 62, 295, 1400)], Of((0, 280, 0), (5, 282, 0), (61, 290, 0)));
        Assert.Equal((false, true), (back.MeasuresPanelAt(At(60)), back.MeasuresPanelAt(At(61))));
    }

    [Fact]
    public void Provisional_WithTheAirMissing_IsOneOpenGap()
    {
        Watch watch = Watch([Steady(0, 5, 293, 1000)]);
        ClimateTrack track = ClimateTrack.Blank.Extend(watch, At(5));
        Assert.Null(Assert.Single(track.Provisional(watch, At(6))).Unseen);
        Assert.True(Assert.Single(track.Provisional(watch, At(30))).Unseen is { IsGapForCure: false });
        Assert.True(Assert.Single(track.Provisional(watch, At(36))).Unseen is { IsGapForCure: true, IsDark: true, Panels.IsEmpty: true });
    }

    [Fact]
    public void Provisional_WithEveryProbeMissing_IsDarkOnlyWhileNoneIsHeard()
    {
        Source air = Steady(0, 5, 293, 1000);
        ClimateTrack track = ClimateTrack.Blank.Extend(Watch([air], Steady(0, 5, 290)), At(5));
        Assert.True(Assert.Single(track.Provisional(Watch([air], Steady(0, 5, 290)), At(60))).Unseen!.IsDark);
        (double, double, double)[] back = [.. Enumerable.Range(0, 6).Select(m => ((double)m, 290.0, 0.0)), (60, 285, 0)];
        IReadOnlyList<ClimateSegment> gap = track.Provisional(Watch([air], Of(back)), At(62));
        Assert.Equal([(At(60), true), (At(62), false)], gap.Select(s => (s.End, s.Unseen!.IsDark)));
    }

    private static readonly Gen<(double Minute, double Kelvins, double Pa)> Sample =
        Gen.Select(Gen.Int[0, 60], Gen.Double[270, 310], Gen.Double[300, 2500], (minute, kelvins, pa) => ((double)minute, kelvins, pa));

    private static readonly Gen<((double Minute, double Kelvins, double Pa)[] Air, (double Minute, double Kelvins, double Pa)[] Panel)> Days =
        Gen.Select(InOrder(0), InOrder(0));

    private static Gen<(double Minute, double Kelvins, double Pa)[]> InOrder(double first) =>
        Sample.Array[5, 60].Select(samples => samples.Append((first, 293, 1000)).DistinctBy(s => s.Item1).OrderBy(s => s.Item1).ToArray());

    private static Watch Heard(((double Minute, double Kelvins, double Pa)[] Air, (double Minute, double Kelvins, double Pa)[] Panel) day, int minute) =>
        Watch([Of([.. day.Air.Where(s => s.Minute <= minute)])], Of([.. day.Panel.Where(s => s.Minute <= minute)]));
}
