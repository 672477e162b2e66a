using System.Collections.Immutable;
using CsCheck;
using CureWatch.Curing;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.Days.FaultInTime;

namespace CureWatch.Tests.Days;

/// <summary>That nobody waits for a panel probe any more tells nothing of the panel: no release comes nearer by it. Common practice, no source.</summary>
public class GivenUpPanelTests
{
    /// <summary>What the noise of the probes may make of what is left.</summary>
    private const double ShareOfWhatIsLeft = 0.02;

    private static readonly TimeSpan Late = TimeSpan.FromMinutes(1);

    // With the half hour for which it had been waited for the release had come up to an hour and a half nearer.
    [Fact]
    public void PanelSilent_WhenItIsGivenUp_BringsNoReleaseNearer() => AnyDay.Sample(
        day =>
        {
            Said[] told = [.. day.Live()];
            Said before = told.Last(t => t.Lasted <= TimeSpan.FromMinutes(29));
            foreach (Said after in told.Where(t => t.Lasted > before.Lasted))
            {
                DateTimeOffset? was = Release(before.Faulty), now = Release(after.Faulty), kept = Release(before.Sound), keeps = Release(after.Sound);
                if (was > after.At && kept > after.At)
                {
                    TimeSpan nearer = keeps < kept ? (kept - keeps).Value : TimeSpan.Zero; // the air has told that much
                    Assert.False(now < was - nearer - Late - ((was - after.At) * ShareOfWhatIsLeft), $"told {now} after {after.Lasted}, {was} before it was given up, {kept} and {keeps} without the fault, {day}");
                }
            }
        },
        iter: 12);

    // It cost half an hour for good, and a promise never came back.
    [Fact]
    public void PanelHeardAgain_CostsNoMoreThanItsDoubt()
    {
        foreach (double silentHours in new[] { 0.6, 2, 5 })
        {
            TestShop sound = Day(_ => true), mended = Day(h => h < 3 || h >= 3 + silentHours), waiting = Day(h => h < 3, 3 + silentHours);
            TimeSpan later = Latest(mended)!.Value - Latest(sound)!.Value;
            Assert.InRange(later.TotalHours, 0, 0.25 * (silentHours + 0.2));
            Assert.True(Latest(mended) < Latest(waiting));
        }
    }

    private static readonly Gen<FaultInTime> AnyDay =
        from seed in Gen.Int[0, 1_000_000]
        from lnHours in Gen.Double[Math.Log(2), Math.Log(96)]
        from hasTwin in Gen.Bool
        from at in Gen.Double[0.2, 8]
        select new FaultInTime(seed, Math.Exp(lnHours), hasTwin ? Set.Twins : Set.AirAndPanel, Kind.PanelSilent, at, 0.6, 0) { EveryMinutes = 1 };

    private static TestShop Day(Func<double, bool> isHeard, double hours = 12)
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        for (int minute = 0; minute <= hours * 60; minute++)
        {
            double hour = minute / 60.0, c = 20 + Math.Sin(hour);
            shop.Read(hour, Math.Round(c, 2), 50 + (0.1 * Math.Sin(97 * hour)));
            shop = isHeard(hour) ? shop.ReadPanel(hour, Math.Round(c - 0.5 + (0.02 * Math.Sin(89 * hour)), 2)) : shop;
            shop = minute == 60 ? shop.Tap(1, Did.Applied) : minute == 63 ? shop.Tap(hour, Did.Levelled) : shop;
        }

        return shop.Until(hours);
    }

    private static DateTimeOffset? Latest(TestShop shop) => shop.Window(WindowStage.KeepDry).ClosesAt!.Latest;

    private static DateTimeOffset? Release(ImmutableArray<Window> windows) => windows.SingleOrDefault(w => w.Stage == WindowStage.KeepDry)?.ClosesAt?.Latest;
}
