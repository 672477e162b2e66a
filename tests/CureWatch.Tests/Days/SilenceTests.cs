using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Curing.Did;

namespace CureWatch.Tests.Days;

/// <summary>With probes silent, releases only move later and deadlines only earlier. Common practice, no source.</summary>
public class SilenceTests
{
    private static readonly TimeSpan Rounding = TimeSpan.FromMilliseconds(1);

    /// <summary>Probes 10 K apart: with the one that is given up goes what was likely of the mean, by which a release a day off is less sure. Measured: 3 min.</summary>
    private static readonly TimeSpan GivenUp = TimeSpan.FromMinutes(5);

    [Fact]
    public void ProbesSilent_ReleasesOnlyMoveLater_AndDeadlinesOnlyEarlier()
    {
        TestShop shop = new TestShop().Steady(0, 1.5).Tap(1, Applied).Tap(1 + (4 / 60.0), Levelled);
        shop.Tap(1.5, Applied, layer: 1, section: 2);
        TimeBounds? release = null;
        DateTimeOffset? levelBy = null, recoatBy = null;
        for (double hour = 1.5; hour < 9; hour += 1 / 6.0)
        {
            shop.Until(hour);
            Ruling ruling = shop.Report.Ruling;
            Window levelOff = shop.Report.Surfaces[0].Coats[1].Windows.First(w => w.Stage == WindowStage.LevelOff);
            Window recoat = shop.Window(WindowStage.Recoat);
            Assert.False(ruling.ReadyAt!.Latest + Rounding < release?.Latest, $"{hour} {release?.Latest} {ruling.ReadyAt.Latest}");
            Assert.False(levelOff.ClosesAt!.Earliest > levelBy + Rounding, $"{hour} {levelBy} {levelOff.ClosesAt.Earliest}");
            Assert.False(recoat.ClosesAt!.Earliest > recoatBy + Rounding, $"{hour} {recoatBy} {recoat.ClosesAt.Earliest}");
            (release, levelBy, recoatBy) = (ruling.ReadyAt, levelOff.ClosesAt.Earliest, recoat.ClosesAt.Earliest);
        }

        Assert.True(release!.Latest > TestShop.At(20), "silence earned nothing");
    }

    [Fact]
    public void ProbeSilentJustBeforeTheRelease_ReadyIsNeverTakenBack()
    {
        bool wasReady = false;
        for (double silentFrom = 15; silentFrom < 20.5; silentFrom += 0.6)
        {
            TestShop shop = new TestShop().Steady(0, 1).Tap(1, Applied).Tap(1.05, Levelled).Steady(1.1, silentFrom);
            bool isReady = false;
            for (double hour = silentFrom; hour < silentFrom + 2; hour += 1 / 20.0)
            {
                bool before = isReady;
                isReady = shop.Until(hour).Report.Ruling.IsReady;
                Assert.False(before && !isReady);
            }

            wasReady |= isReady;
        }

        Assert.True(wasReady);
    }

    [Fact]
    public void BothProbesSilent_OneAfterTheOther_ReleaseOnlyMovesLater()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Air("air-2")]);
        for (int minute = 0; minute <= 180; minute++)
        {
            double hour = minute / 60.0;
            shop.Read(hour, 24, 50);
            if (minute <= 150)
            {
                shop.Read(hour, 16, 50, "air-2");
            }

            if (minute == 60)
            {
                shop.Tap(1, Applied).Tap(1.05, Levelled);
            }
        }

        DateTimeOffset? release = null;
        for (double hour = 3; hour < 8; hour += 1 / 12.0)
        {
            DateTimeOffset? latest = shop.Until(hour).Report.Ruling.ReadyAt!.Latest;
            Assert.False(latest + Rounding < release);
            release = latest;
        }
    }

    [Fact]
    public void EveryProbeSilent_MinutesApart_ReleaseOnlyMovesLater()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Air("air-2"), TestShop.Air("air-3")]);
        for (int minute = 0; minute <= 128; minute++)
        {
            double hour = minute / 60.0;
            foreach ((string probe, double c, int until) in new[] { ("air-1", 14.0, 120), ("air-2", 24.0, 122), ("air-3", 19.0, 128) })
            {
                if (minute <= until)
                {
                    shop.Read(hour, c, 50, probe);
                }
            }

            if (minute == 60)
            {
                shop.Tap(1, Applied).Tap(1.05, Levelled);
            }
        }

        DateTimeOffset? release = null;
        for (int minute = 128; minute < 240; minute++)
        {
            DateTimeOffset? latest = shop.Until(minute / 60.0).Report.Ruling.ReadyAt!.Latest;
            Assert.False(latest + GivenUp < release, $"earlier at {minute}");
            release = latest;
        }
    }

    [Theory]
    [InlineData(16, 24)]
    [InlineData(24, 16)]
    public void OneOfTwoProbesSilent_ReleaseIsNotEarlier_AndDeadlineNotLater_ThanWithBoth(double lostC, double heardC)
    {
        JobReport both = Day(lostUntilHour: 9), one = Day(lostUntilHour: 2);
        Window full = Stage(both, WindowStage.KeepDry), partial = Stage(one, WindowStage.KeepDry);
        Assert.False(partial.ClosesAt!.Latest + Rounding < full.ClosesAt!.Latest, $"{partial.ClosesAt} {full.ClosesAt}");
        Assert.False(Stage(one, WindowStage.Recoat).ClosesAt!.Earliest > Stage(both, WindowStage.Recoat).ClosesAt!.Earliest + Rounding, $"{Stage(one, WindowStage.Recoat).ClosesAt} {Stage(both, WindowStage.Recoat).ClosesAt}");
        Assert.True(partial.ClosesAt.Latest < TestShop.At(40), "the probe that is heard still counts");

        JobReport Day(double lostUntilHour)
        {
            TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Air("air-2")]);
            for (int minute = 0; minute <= 9 * 60; minute++)
            {
                double hour = minute / 60.0, drift = Math.Sin(hour);
                shop.Read(hour, heardC + drift, 50);
                if (hour <= lostUntilHour)
                {
                    shop.Read(hour, lostC + drift, 50, "air-2");
                }

                if (minute == 60)
                {
                    shop.Tap(1, Applied).Tap(1.05, Levelled);
                }
            }

            return shop.Report;
        }

        static Window Stage(JobReport report, WindowStage stage) => report.Surfaces[0].Coats[0].Windows.First(w => w.Stage == stage);
    }
}
