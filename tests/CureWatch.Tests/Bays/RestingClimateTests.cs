using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.TimeWindows;
using Segments = CureWatch.Tests.Curing.Segments;

namespace CureWatch.Tests.Bays;

/// <summary>Once nobody waits for a coat any more its climate is followed by the hour, as if the probes reported every ten minutes: nobody may notice.</summary>
public class RestingClimateTests
{
    private const double Cured = 48, Again = Cured + 1.2, End = Cured + 3, GustK = 2;

    [Fact]
    public void CuredCoat_GoesOnEarning_AsItsClimateIs_AndIsKeptByTenMinutes()
    {
        TestShop shop = Swing(Shop(isFirstOn: true), 1.1, End);
        double exact = Enumerable.Range(63, (int)Math.Round(End * 60) - 63).Sum(minute => CureIntegral.Over(Law(shop), Segments.Over(1 / 60.0, At(minute), At(minute + 1))).Likely);
        Assert.Equal(1, Coat(shop, section: 1).ReferenceHours.Likely / exact, 1e-4);
        Assert.InRange(SegmentsFrom(shop, Cured - 12), 12 * 6, 12 * 6 * 1.2);
    }

    [Fact]
    public void CuredCoat_BetweenTwoHours_HasEarnedWhatCameSince()
    {
        TestShop shop = Swing(Shop(isFirstOn: true), 1.1, Cured);
        double before = Coat(shop, section: 1).ReferenceHours.Likely;
        double since = Coat(Swing(shop, Cured + (1 / 60.0), Cured + 0.5), section: 1).ReferenceHours.Likely - before;
        double exact = Enumerable.Range(0, 30).Sum(m => CureIntegral.Over(Law(shop), Segments.Over(1 / 60.0, At((Cured * 60) + m), At((Cured * 60) + m + 1))).Likely);
        Assert.Equal(1, since / exact, 1e-3);
    }

    // What is put on there then is followed by the minute, also what was told of it late.
    [Theory]
    [InlineData(0)]
    [InlineData(0.75)]
    public void CoatPutOnAfterAnotherHasCured_HasTheWindowsOfOneThatIsAlone(double toldLaterByHours)
    {
        (CoatReport second, CoatReport alone) = (Second(isFirstOn: true, toldLaterByHours), Second(isFirstOn: false, toldLaterByHours));
        Assert.Equal(alone.ReferenceHours.Likely, second.ReferenceHours.Likely, 1e-6);
        Assert.All(alone.Windows.Zip(second.Windows), w => Assert.True(IsSame(w.First, w.Second), $"{w.First} {w.Second}"));
    }

    // Nobody measured for two hours: that is a gap, however seldom is looked.
    [Fact]
    public void CuredCoat_WhoseProbeWasAway_HasTheGap()
    {
        TestShop shop = Swing(Swing(Shop(isFirstOn: true), 1.1, Cured), Cured + 2, Cured + 4);
        Assert.Contains(
            shop.Shop.Bays["bay-1"].Climates.Values.SelectMany(c => Enumerable.Range(0, c.Track.Segments.Count).Select(i => c.Track.Segments[i])),
            s => s.Unseen is { IsGapForCure: true } && s.Start >= TestShop.At(Cured - 0.2));
    }

    private static bool IsSame(Window a, Window b) =>
        a.Stage == b.Stage && IsNear(a.OpensAt.Earliest, b.OpensAt.Earliest) && IsNear(a.OpensAt.Latest, b.OpensAt.Latest)
        && IsNear(a.ClosesAt?.Earliest, b.ClosesAt?.Earliest) && IsNear(a.ClosesAt?.Latest, b.ClosesAt?.Latest);

    private static bool IsNear(DateTimeOffset? a, DateTimeOffset? b) => a is null ? b is null : (a - b)?.Duration() < TimeSpan.FromSeconds(1);

    private static CoatReport Second(bool isFirstOn, double toldLaterByHours)
    {
        double told = Again + toldLaterByHours;
        TestShop shop = Swing(Shop(isFirstOn), 1.1, told, GustK).Tap(Again, Did.Applied, section: 2, reportedHour: told);
        return Coat(Swing(shop, told + (1 / 60.0), End, GustK), section: 2);
    }

    private static TestShop Shop(bool isFirstOn)
    {
        TestShop shop = Swing(new TestShop(Quick(), sections: 2), 0, 1);
        return isFirstOn ? shop.Tap(1, Did.Applied, section: 1).Tap(1.05, Did.Levelled, section: 1) : shop;
    }

    private static CoatReport Coat(TestShop shop, int section) => shop.Report.Surfaces[0].Coats.Single(c => c.Coat.Section == section);

    private static RateLaw Law(TestShop shop) => shop.Shop.LawsOf(shop.Report.Job.Surfaces[0]).Cure.Law;

    private static int SegmentsFrom(TestShop shop, double hour)
    {
        ClimateTrack track = shop.Shop.Bays["bay-1"].Climates.Values.Single().Track;
        return Enumerable.Range(0, track.Segments.Count).Count(i => track.Segments[i].Start >= TestShop.At(hour) && track.Segments[i].Start < TestShop.At(hour + 12));
    }

    /// <summary>A reading a minute of the air and of the panel, which has the air's temperature; gusts come and go within six minutes.</summary>
    private static TestShop Swing(TestShop shop, double fromHour, double toHour, double gustK = 0)
    {
        for (int minute = (int)Math.Round(fromHour * 60); minute <= Math.Round(toHour * 60); minute++)
        {
            (double c, double pct) = Swinging(minute / 60.0);
            c += gustK * Math.Sin(minute);
            shop.Read(minute / 60.0, c, pct, panelC: c);
        }

        return shop;
    }

    /// <summary>Paint that is dry after half a day, of which nothing more is told.</summary>
    private static ProductSheet Quick()
    {
        ProductSheet paint = TestShop.Paint();
        return paint with { Stages = [.. paint.Stages.Where(s => s.Stage is not (Stage.NoWash or Stage.FullCure))] };
    }

    /// <summary>A bay's day and night, and a heater that switches.</summary>
    private static (double C, double Pct) Swinging(double hour) => (20 + (4 * Math.Sin(hour * Math.Tau / 24)) + (0.5 * Math.Sin(hour * 7)), 50 + (8 * Math.Cos(hour * Math.Tau / 24)));

    private static Exposure At(double minute)
    {
        (double c, double pct) = Swinging(minute / 60);
        return Segments.At(c, pct);
    }
}
