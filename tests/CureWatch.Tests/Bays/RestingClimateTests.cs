using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.TimeWindows;
using Segments = CureWatch.Tests.Curing.Segments;

namespace CureWatch.Tests.Bays;

/// <summary>Once nobody waits for a coat any more its climate is followed hours later, and coarsely: nobody may notice.</summary>
public class RestingClimateTests
{
    private const double On = 1, Levelled = On + 0.05, After = Levelled + (1 / 60.0), Cured = 48, Again = Cured + 1.2, End = Cured + 3, GustK = 2;

    [Fact]
    public void CuredCoat_GoesOnEarning_AsItsClimateIs()
    {
        TestShop shop = Swing(Shop(isFirstOn: true), After, End);
        double exact = Enumerable.Range(63, (int)Math.Round(End * 60) - 63).Sum(minute => CureIntegral.Over(Law(shop), Segments.Over(1 / 60.0, At(minute), At(minute + 1))).Likely);
        Assert.Equal(1, Coat(shop, section: 1).ReferenceHours.Likely / exact, 1e-4);
    }

    [Fact]
    public void CuredCoat_BetweenTwoLooks_HasEarnedWhatCameSince()
    {
        TestShop shop = Swing(Shop(isFirstOn: true), After, Cured);
        double before = Coat(shop, section: 1).ReferenceHours.Likely;
        double since = Coat(Swing(shop, Cured + (1 / 60.0), Cured + 0.15), section: 1).ReferenceHours.Likely - before;
        double exact = Enumerable.Range(0, 9).Sum(m => CureIntegral.Over(Law(shop), Segments.Over(1 / 60.0, At((Cured * 60) + m), At((Cured * 60) + m + 1))).Likely);
        Assert.Equal(1, since / exact, 1e-3);
    }

    // What is put on there then is followed as ever, also what was told of it late.
    [Theory]
    [InlineData(0)]
    [InlineData(0.75)]
    public void CoatPutOnAfterAnotherHasCured_HasTheWindowsOfOneThatIsAlone(double toldLaterByHours)
    {
        (CoatReport second, CoatReport alone) = (Second(isFirstOn: true, toldLaterByHours), Second(isFirstOn: false, toldLaterByHours));
        Assert.Equal(alone.ReferenceHours.Likely, second.ReferenceHours.Likely, 1e-6);
        Assert.All(alone.Windows.Zip(second.Windows), w => Assert.True(IsSame(w.First, w.Second, TimeSpan.FromSeconds(1)), $"{w.First} {w.Second}"));
    }

    // What a probe has measured stays, though nobody had looked at it yet when it was replaced.
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.1)]
    [InlineData(0.15)]
    public void CuredCoat_WhoseProbeIsReplaced_KeepsWhatThatMeasured(double afterHours)
    {
        double replaced = Cured + afterHours;
        TestShop shop = Swing(Shop(isFirstOn: true), After, replaced);
        ShopPlan plan = shop.Shop.Plan;
        ProbeMount other = plan.Bays[0].Probes[0] with { Probe = TestShop.Air("air-2") };
        shop.Take(new Message.PlanChanged(plan with { Bays = [plan.Bays[0] with { Probes = [other] }, plan.Bays[1]] }, TestShop.At(replaced)));
        for (int minute = 1; minute <= 120; minute++)
        {
            (double c, double pct) = Swinging(replaced + (minute / 60.0));
            shop.Read(replaced + (minute / 60.0), c, pct, "air-2", panelC: c);
        }

        Assert.All(SegmentsOf(shop).Where(s => s.Unseen is not null), s => Assert.True(s.Start >= TestShop.At(replaced), $"{s.Start}"));
        Assert.Contains(SegmentsOf(shop), s => s.Start >= TestShop.At(replaced + 1));
    }

    // A panel probe that is heard for the first time tells of no time before: what the air told stays, and is followed first.
    [Fact]
    public void CuredCoat_WhosePanelIsHeardFirst_HasNothingLeftToFollow()
    {
        TestShop shop = Swing(Shop(isFirstOn: true, isPanelRead: false), After, Cured, isPanelRead: false);
        ShopPlan plan = shop.Shop.Plan;
        var panel = new ProbeMount(TestShop.Panel("panel-1"), Material.Steel, Place.Outside);
        shop.Take(new Message.PlanChanged(plan with { Bays = [plan.Bays[0] with { Probes = [.. plan.Bays[0].Probes, panel] }, plan.Bays[1]] }, TestShop.At(Cured)));
        shop = Swing(shop, Cured + (1 / 60.0), Cured + 6, isPanelRead: false).ReadPanel(Cured + 6.01, 12);
        Assert.InRange(shop.Shop.Bays["bay-1"].Climates.Values.Single().Track.SettledTo!.Value, TestShop.At(Cured + 5.9), TestShop.At(Cured + 6.1));
    }

    // Nobody measured for two hours: that is a gap, however seldom is looked.
    [Fact]
    public void CuredCoat_WhoseProbeWasAway_HasTheGap()
    {
        TestShop shop = Swing(Swing(Shop(isFirstOn: true), After, Cured), Cured + 2, Cured + 4);
        Assert.Contains(SegmentsOf(shop), s => s.Unseen is { IsGapForCure: true } && s.Start == TestShop.At(Cured));
    }

    // Told hours late, it is reckoned by what is kept of then.
    [Fact]
    public void CoatToldHoursLate_HasTheWindowsOfOneThatIsAlone_ToHalfAMinute()
    {
        (CoatReport second, CoatReport alone) = (Told(isFirstOn: true), Told(isFirstOn: false));
        Assert.All(alone.Windows.Zip(second.Windows), w => Assert.True(IsSame(w.First, w.Second, TimeSpan.FromSeconds(30)), $"{w.First} {w.Second}"));

        CoatReport Told(bool isFirstOn)
        {
            TestShop shop = Swing(Shop(isFirstOn, isPanelRead: false), After, Again + 6, isPanelRead: false).Tap(Again, Did.Applied, section: 2, reportedHour: Again + 6);
            return Coat(Swing(shop, Again + 6 + (1 / 60.0), Again + 7, isPanelRead: false), section: 2);
        }
    }

    // What is settled of it is coarse, and is told by the readings that it keeps; where one is missing longer than evaporation can be credited, it says so.
    [Theory]
    [InlineData(10)]
    [InlineData(60)]
    [InlineData(90)]
    [InlineData(300)]
    [InlineData(900)]
    public void CuredCoat_InAirAlone_HasTheClimateThatWasMeasured(int everySeconds)
    {
        TestShop shop = Shop(isFirstOn: true, isPanelRead: false);
        var random = new Random(everySeconds);
        for (double hour = After; hour < Cured; hour += (everySeconds / 3600.0) + (random.Next(200) == 0 ? random.Next(1, 50) / 60.0 : 0))
        {
            (double c, double pct) = Swinging(hour);
            shop.Read(hour, c, pct);
        }

        BayState bay = shop.Shop.Bays["bay-1"];
        (WatchPoint point, WatchedClimate climate) = bay.Climates.Single();
        ClimateTrack fine = ClimateTrack.Blank.Extend(point.WatchIn(bay), shop.Shop.Now);
        ClimateSegment[] kept = [.. SegmentsOf(climate.Track).Where(s => s.Start > TestShop.At(Cured - 12) && !s.GoesOn)];
        Assert.InRange(climate.Track.SettledTo!.Value, TestShop.At(Cured - 5.5), TestShop.At(Cured - 3));
        Assert.InRange(kept.Length, 20, 100);
        Assert.All(kept, s => Assert.Equal(fine.ExposureAt(s.End).AirKelvins, s.AtEnd.AirKelvins, 1e-9));
        Assert.All(kept, s => Assert.Equal(fine.ExposureAt(s.End).VapourPressurePa, s.AtEnd.VapourPressurePa, 1e-6));
        Assert.All(kept, s => Assert.Equal(fine.ExposureAt(s.End).PanelKelvins, s.AtEnd.PanelKelvins, 0.05));
        Assert.Equal(GapsIn(fine).Where(s => !s.GoesOn).Select(s => s.End), GapsIn(climate.Track).Where(s => !s.GoesOn).Select(s => s.End));
        Assert.Equal(GapsIn(fine).Sum(s => s.Hours), GapsIn(climate.Track).Sum(s => s.Hours), 1e-9);

        IEnumerable<ClimateSegment> GapsIn(ClimateTrack track) =>
            SegmentsOf(track).Where(s => s.Unseen is not null && s.Start > TestShop.At(Cured - 12) && s.End <= climate.Track.SettledTo);
    }

    // What is known of all climates together must never say "not yet" of one that has to be followed, however far behind it was when it was asked first.
    [Fact]
    public void ClimatesTogether_AreLookedAtBeforeOneHasToBeFollowed()
    {
        TestShop shop = Shop(isFirstOn: true, isPanelRead: false);
        int rested = 0;
        for (int minute = 64; minute < Cured * 60; minute++)
        {
            (double c, double pct) = Swinging(minute / 60.0);
            shop.Read(minute / 60.0, c, pct);
            ImmutableDictionary<WatchPoint, WatchedClimate> climates = shop.Shop.Bays["bay-1"].Climates;
            var together = ClimatesTogether.Of(climates, shop.Shop.Now);
            Assert.Equal(climates.Values.Max(c => c.Track.SettledTo), together.SettledTo);
            Assert.All(
                Enumerable.Range(0, 300).Select(m => shop.Shop.Now.AddMinutes(m)).Where(t => climates.Values.Any(c => c.HasToFollow(DateTimeOffset.MaxValue, t))),
                t => Assert.True(together.LookAt <= t, $"{t} of {together.LookAt}"));
            rested += together.LookAt > shop.Shop.Now ? 1 : 0;
        }

        Assert.InRange(rested, 600, Cured * 60);
    }

    private static bool IsSame(Window a, Window b, TimeSpan within) =>
        a.Stage == b.Stage && IsNear(a.OpensAt.Earliest, b.OpensAt.Earliest, within) && IsNear(a.OpensAt.Latest, b.OpensAt.Latest, within)
        && IsNear(a.ClosesAt?.Earliest, b.ClosesAt?.Earliest, within) && IsNear(a.ClosesAt?.Latest, b.ClosesAt?.Latest, within);

    private static bool IsNear(DateTimeOffset? a, DateTimeOffset? b, TimeSpan within) => a is null ? b is null : (a - b)?.Duration() < within;

    private static CoatReport Second(bool isFirstOn, double toldLaterByHours)
    {
        double told = Again + toldLaterByHours;
        TestShop shop = Swing(Shop(isFirstOn), After, told, GustK).Tap(Again, Did.Applied, section: 2, reportedHour: told);
        return Coat(Swing(shop, told + (1 / 60.0), End, GustK), section: 2);
    }

    private static TestShop Shop(bool isFirstOn, bool isPanelRead = true)
    {
        TestShop shop = Swing(new TestShop(Quick(), sections: 2), 0, On, isPanelRead: isPanelRead);
        shop = Swing(isFirstOn ? shop.Tap(On, Did.Applied, section: 1) : shop, On + (1 / 60.0), Levelled, isPanelRead: isPanelRead);
        return isFirstOn ? shop.Tap(Levelled, Did.Levelled, section: 1) : shop;
    }

    private static CoatReport Coat(TestShop shop, int section) => shop.Report.Surfaces[0].Coats.Single(c => c.Coat.Section == section);

    private static RateLaw Law(TestShop shop) => shop.Shop.LawsOf(shop.Report.Job.Surfaces[0]).Cure.Law;

    private static IEnumerable<ClimateSegment> SegmentsOf(TestShop shop)
    {
        (WatchPoint point, WatchedClimate climate) = shop.Shop.Bays["bay-1"].Climates.Single();
        return SegmentsOf(climate.Track.Extend(point.WatchIn(shop.Shop.Bays["bay-1"]), shop.Shop.Now));
    }

    private static IEnumerable<ClimateSegment> SegmentsOf(ClimateTrack track) => Enumerable.Range(0, track.Segments.Count).Select(i => track.Segments[i]);

    /// <summary>A reading a minute of the air, and of the panel where it is read, which has the air's temperature; gusts come and go within six minutes.</summary>
    private static TestShop Swing(TestShop shop, double fromHour, double toHour, double gustK = 0, bool isPanelRead = true)
    {
        for (int minute = (int)Math.Round(fromHour * 60); minute <= Math.Round(toHour * 60); minute++)
        {
            (double c, double pct) = Swinging(minute / 60.0);
            c += gustK * Math.Sin(minute);
            shop.Read(minute / 60.0, c, pct, panelC: isPanelRead ? c : null);
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
