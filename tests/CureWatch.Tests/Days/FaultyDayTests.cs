using CsCheck;
using CureWatch.Curing;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Units;
using CureWatch.Warnings;

namespace CureWatch.Tests.Days;

/// <summary>
/// A day with faults beside the same day without: releases only later, deadlines only earlier, each with its reason. Common practice, no
/// source.
/// </summary>
public class FaultyDayTests
{
    private const double LastHour = 17;

    private static readonly TimeSpan Rounding = TimeSpan.FromMilliseconds(1);

    /// <summary>
    /// Up to half an hour without a reading is no gap: straight over it, a bend in the climate is cut off. Measured in 1,500 random
    /// days: a release 8 s sooner, a deadline 18 s later at most.
    /// </summary>
    private static readonly TimeSpan CutBend = TimeSpan.FromMinutes(1);

    [Fact]
    public void DeadPanelProbe_StuckHumidity_AndAnOutage_MoveReleasesLaterAndDeadlinesEarlier_WithTheirReasons()
    {
        var climate = new Drift(7);
        TestShop whole = Day(climate, _ => false, _ => false), faulty = Day(
            climate, hour => hour is (> 4 and < 6) or (> 11 and < 14), hour => hour is > 11 and < 14, stuck: hour => hour is > 7.5 and < 9.5);
        Window keptDry = whole.Window(WindowStage.KeepDry), keepDry = faulty.Window(WindowStage.KeepDry);
        Assert.True(keepDry.ClosesAt!.Latest > keptDry.ClosesAt!.Latest + TimeSpan.FromMinutes(30), $"{keepDry.ClosesAt.Latest} after {keptDry.ClosesAt.Latest}");
        Assert.True(keepDry.ClosesAt.Latest < keptDry.ClosesAt.Latest + TimeSpan.FromHours(7), "what was measured still counts");
        Assert.True(faulty.Window(WindowStage.Recoat).ClosesAt!.Earliest <= whole.Window(WindowStage.Recoat).ClosesAt!.Earliest + Rounding);
        Assert.DoesNotContain(whole.Warnings(WarningKind.ProbeSilent), IsHere);
        Assert.Contains(faulty.Warnings(WarningKind.ProbeSilent), w => IsHere(w) && w.Subject.Probe == "panel-1");
        Assert.Contains(faulty.Warnings(WarningKind.ProbeSilent), w => IsHere(w) && w.Subject.Probe == "air-1");
        Assert.True(faulty.Shop.Tally.Rejected.GetValueOrDefault(Disbelief.Frozen) > 30, "the stuck readings are counted with their reason");
    }

    // While nobody measured the panel it got colder by 6 K, away from the sheet's rows: the mean was of the climate before, and the bounds too close.
    [Fact]
    public void PanelSilent_WhileItLeavesTheSheetsRows_IsNoReasonForCloserBounds()
    {
        var climate = new Drift(56237);
        TestShop whole = Day(climate, _ => false, _ => false), faulty = Day(climate, hour => hour is (> 5 and < 5.55) or (> 9 and < 11.125), _ => false);
        Assert.True(Release(faulty) >= Release(whole), $"{Release(faulty)} before {Release(whole)}");

        static DateTimeOffset? Release(TestShop shop) => shop.Window(WindowStage.KeepDry).ClosesAt!.Latest;
    }

    // What nobody heard after a deadline had passed is no reason to move it.
    [Fact]
    public void PanelSilent_AfterTheDeadline_LeavesIt()
    {
        var climate = new Drift(18811);
        TestShop whole = Day(climate, _ => false, _ => false), faulty = Day(climate, hour => hour is > 6.6 and < 9.5, _ => false);
        DateTimeOffset? by = whole.Window(WindowStage.Recoat).ClosesAt!.Earliest, closes = faulty.Window(WindowStage.Recoat).ClosesAt!.Earliest;
        Assert.True(by < TestShop.At(6.6), $"{by} is to have passed");
        Assert.Equal(by!.Value, closes!.Value, TimeSpan.FromSeconds(1));
    }

    // Whatever is not heard, of either probe, in a bay that obeys the limits of science: 4 K/h, and 3 K/h for its dew point.
    [Fact]
    public void AnyOutages_NeverReleaseEarlier_NorCloseLater() => Gen.Select(Gen.Int[0, 100_000], Outages, Outages).Sample(
        (seed, air, panel) =>
        {
            var climate = new Drift(seed);
            TestShop whole = Day(climate, _ => false, _ => false), faulty = Day(climate, h => panel.Any(o => o.Covers(h)), h => air.Any(o => o.Covers(h)));
            DateTimeOffset? kept = whole.Window(WindowStage.KeepDry).ClosesAt!.Latest, release = faulty.Window(WindowStage.KeepDry).ClosesAt!.Latest;
            Assert.False(release + CutBend < kept, $"released {kept - release} earlier");
            DateTimeOffset? by = whole.Window(WindowStage.Recoat).ClosesAt!.Earliest, closes = faulty.Window(WindowStage.Recoat).ClosesAt!.Earliest;
            Assert.False(closes > by + CutBend, $"closed {closes - by} later");
        },
        iter: 12);

    // Every reading that comes, whatever it says: a car that was ruled ready stays ready.
    [Fact]
    public void Outage_AcrossTheRelease_ReadyIsNeverTakenBackByTheReadingThatEndsIt() => Gen.Select(
        Gen.Double[13.5, 16.2], Gen.Double[0.6, 3], Gen.Double[-5, 35], Gen.Double[15, 90]).Sample(
        (from, length, backC, backPct) =>
        {
            TestShop shop = new TestShop().Steady(0, 1, 22, 45).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, from, 22, 45);
            bool wasReady = shop.Until(from + length).Report.Ruling.IsReady;
            shop.Read(from + length, backC, backPct);
            bool isReady = shop.Until(from + length + 0.01).Report.Ruling.IsReady;
            Assert.False(wasReady && !isReady, $"{from} {length} {backC} {backPct}");
        },
        iter: 60);

    private static bool IsHere(Warning warning) => warning.Subject.Bay == "bay-1";

    private static readonly Gen<Outage[]> Outages = Gen.Select(Gen.Double[1.2, 14], Gen.Double[0.05, 3], (from, length) => new Outage(from, from + length)).Array[0, 3];

    private static TestShop Day(Drift climate, Func<double, bool> panelIsLost, Func<double, bool> airIsLost, Func<double, bool>? stuck = null)
    {
        var shop = new TestShop(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        (double C, double Pct) last = default;
        for (int minute = 0; minute <= LastHour * 60; minute++)
        {
            double hour = minute / 60.0;
            (double airC, double pct, double panelC) = climate.At(hour);
            last = stuck?.Invoke(hour) == true ? last : (airC, pct);
            if (!airIsLost(hour))
            {
                shop.Read(hour, last.C, last.Pct);
            }

            if (!panelIsLost(hour))
            {
                shop.ReadPanel(hour, panelC);
            }

            if (minute == 60)
            {
                shop.Tap(1, Did.Applied);
            }
            else if (minute == 63)
            {
                shop.Tap(hour, Did.Levelled);
            }
        }

        return shop.Until(LastHour);
    }

    private sealed record Outage(double From, double To)
    {
        public bool Covers(double hour) => hour > From && hour < To;
    }

    /// <summary>A bay that drifts from hour to hour, its temperature by 3.5 K/h and its dew point by 2.5 K/h at most, and never quite stands still.</summary>
    private sealed class Drift
    {
        private readonly (double C, double DewC)[] _hours;

        public Drift(int seed)
        {
            var random = new Random(seed);
            _hours = new (double, double)[20];
            _hours[0] = (20, 8);
            for (int i = 1; i < _hours.Length; i++)
            {
                double c = Math.Clamp(_hours[i - 1].C + Step(3.5), 16, 24);
                _hours[i] = (c, Math.Clamp(_hours[i - 1].DewC + Step(2.5), 4, c - 6));
            }

            double Step(double most) => most * ((2 * random.NextDouble()) - 1);
        }

        public (double AirC, double Pct, double PanelC) At(double hour)
        {
            int i = (int)hour;
            double share = hour - i, c = Mix(_hours[i].C, _hours[i + 1].C), dew = Mix(_hours[i].DewC, _hours[i + 1].DewC);
            double pct = 100 * SaturationPressure.OverWaterPa(new Celsius(dew).Kelvins) / SaturationPressure.OverWaterPa(new Celsius(c).Kelvins);
            double flutter = 0.01 * Math.Sin(97 * hour);
            return (c + flutter, pct * (1 + (0.1 * flutter)), c - 0.5 + flutter);

            double Mix(double a, double b) => a + ((b - a) * share);
        }
    }
}
