using CsCheck;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.Days.StuckDay;

namespace CureWatch.Tests.Days;

/// <summary>A probe that repeats itself acts backwards: what it repeated was never measured. Common practice, no source.</summary>
public class StandingStillTests
{
    /// <summary>
    /// What may pass before anything can tell a frozen value from a still bay: five minutes, or what the steps hide; of whole per cent and half kelvins more.
    /// </summary>
    private static TimeSpan ToleranceOf(StuckDay day) => TimeSpan.FromMinutes(day.StepK >= 0.5 ? 15 : day.StepPct >= 1 ? 10 : 5);

    private static readonly Gen<Fault> AnyFault = Gen.Select(
        Gen.Int[0, (int)Kind.PanelSilent].Select(k => (Kind)k), Gen.Double[1.2, 15], Gen.Double[0.1, 6], (kind, from, length) => new Fault(kind, from, Silent(kind) ? Math.Min(3, length) : length));

    private static readonly (double K, double Pct)[] Resolutions = [(0.1, 0.1), (0.01, 0.01), (0.1, 1), (0.5, 1)];

    [Fact]
    public void AnyFault_AloneOrWithAnOutage_NeverReleasesEarlier_NorClosesLater() =>
        Gen.Select(Gen.Int[0, 1_000_000], Gen.Int[0, 3].Select(i => Resolutions[i]), Gen.Bool, AnyFault.Array[1, 2]).Sample(
            (seed, steps, hasTwin, faults) => Check(new StuckDay(seed, steps.K, steps.Pct, hasTwin), faults), iter: 12);

    // Found by hand: a release 1 h 51 min too early, though a sound probe hung beside it.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void StuckHumidity_ActsBackwards_AndASoundTwinCarriesTheBay(bool hasTwin)
    {
        TestShop stuck = Falling(Stuck), sound = Falling(hour => 70 - (3 * hour));
        DateTimeOffset? latest = stuck.Window(WindowStage.KeepDry).ClosesAt!.Latest, kept = sound.Window(WindowStage.KeepDry).ClosesAt!.Latest;
        Assert.True(latest >= kept - TimeSpan.FromMinutes(1), $"{latest} before {kept}");
        Assert.True(!hasTwin || latest < kept + TimeSpan.FromMinutes(30), $"{latest} long after {kept}");
        Still still = stuck.Shop.Bays["bay-1"].Logs[0].Standing.Stills[0];
        Assert.Equal(TestShop.At(5), still.From.At, TimeSpan.FromMinutes(2));
        Assert.Equal(Quantity.Humidity, still.What);

        static double Stuck(double hour) => 70 - (3 * Math.Min(hour, 5));

        TestShop Falling(Func<double, double> pct)
        {
            TestShop shop = new(probes: hasTwin ? [TestShop.Air("air-1"), TestShop.Air("air-2")] : [TestShop.Air("air-1")]);
            for (int minute = 0; minute <= 16 * 60; minute++)
            {
                double hour = minute / 60.0, airC = Math.Round(20 + Math.Sin(hour), 1);
                shop.Read(hour, airC, Math.Round(pct(hour), 1));
                shop = hasTwin ? shop.Read(hour, airC, Math.Round(70 - (3 * hour), 1), "air-2") : shop;
                shop = minute == 60 ? shop.Tap(1, Did.Applied) : minute == 63 ? shop.Tap(hour, Did.Levelled) : shop;
            }

            return shop.Until(16);
        }
    }

    // A clock that runs ahead was told as a value that is repeated, since the twin went on.
    [Fact]
    public void ProbeThatIsRefusedForItsClock_DoesNotRepeatItself()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Air("air-2")]);
        for (int minute = 0; minute <= 6 * 60; minute++)
        {
            double hour = minute / 60.0, airC = Math.Round(20 + hour, 1), pct = Math.Round(60 - (3 * hour), 1);
            DateTimeOffset claimed = TestShop.At(minute > 242 ? hour + 1 : hour); // the value before had lasted for six minutes
            shop.Take(new Message.ReadingCame(new RawReading("bay-1", "air-1", claimed, TestShop.At(hour), airC, pct, null))).Read(hour, airC, pct, "air-2");
        }

        Assert.Equal(118, shop.Happened.OfType<ShopEvent.ReadingDoubted>().Count(d => d.Why == Disbelief.Future));
        Assert.Empty(shop.Shop.Bays["bay-1"].Logs[0].Standing.Stills);
    }

    // Each reading that came again after a jump told it again; after thirty what lay before was put together with it, hours of sound readings and all.
    [Fact]
    public void Jump_ThatIsToldAgain_IsOneJump()
    {
        TestShop shop = new();
        for (int minute = 0; minute <= 120; minute++)
        {
            shop.Read(minute / 60.0, Math.Round(20 + Math.Sin(minute), 1), minute is > 90 and < 120 ? 50.5 : 50 + (minute % 7 / 10.0) + (minute == 120 ? 5 : 0));
        }

        for (int again = 0; again < 40; again++)
        {
            shop.Read(2, Math.Round(20 + Math.Sin(120), 1), 50 + (120 % 7 / 10.0) + 5);
        }

        Assert.Single(shop.Shop.Bays["bay-1"].Logs[0].Standing.Stills);
    }

    // A car that was ruled ready by what a stuck probe said goes back to hold.
    [Fact]
    public void CarRuledReadyByAStuckProbe_GoesBackToHold()
    {
        // It is used to tell another value every few minutes, and a still bay may leave it at one for an hour: the car is ready some minutes before.
        double readyHour = (Day(_ => false).Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value - TestShop.Start).TotalHours;
        TestShop shop = Day(hour => hour > readyHour - (56 / 60.0));
        bool[] rulings = [.. shop.Happened.OfType<ShopEvent.RulingTurned>().Select(r => r.IsReady)];
        Assert.True(rulings is [true, false, ..], string.Join(", ", rulings));

        static TestShop Day(Func<double, bool> isStuck)
        {
            TestShop shop = new();
            double pct = 50, c = 20;
            for (int minute = 0; minute <= 22 * 60; minute++)
            {
                double hour = minute / 60.0;
                pct = isStuck(hour) ? pct : 50 + (minute / 20 % 2);
                c = isStuck(hour) ? c : Math.Round(20 + (0.1 * Math.Sin(40 * hour)), 1);
                shop.Read(hour, c, pct);
                shop = minute == 60 ? shop.Tap(1, Did.Applied) : minute == 63 ? shop.Tap(hour, Did.Levelled) : shop;
            }

            return shop.Until(22);
        }
    }

    // Issue of a day with a dead panel probe, a stuck humidity and an outage: each stands beside the window that moved, in words.
    [Fact]
    public void EveryFault_StandsBesideTheWindowThatMoved()
    {
        var day = new StuckDay(7, 0.1, 0.1, HasTwin: false);
        Fault[] faults = [new(Kind.PanelSilent, 4, 2), new(Kind.HumidityStuck, 7.5, 2), new(Kind.AirSilent, 11, 3)];
        WindowReason[] because = [.. day.Told(faults).Window(WindowStage.KeepDry).Because];
        Assert.Contains(because, r => r is { Kind: WindowReasonKind.Unheard, Probe: "panel-1" } && r.Text.ToString().StartsWith("Panel probe panel-1 was not heard from 12:00 to 14:00", StringComparison.Ordinal));
        Assert.Contains(because, r => r is { Kind: WindowReasonKind.Stuck, Probe: "air-1" } && r.Text.ToString().StartsWith("Air probe air-1 repeated one humidity from 15:", StringComparison.Ordinal));
        Assert.Contains(because, r => r is { Kind: WindowReasonKind.Unheard, Probe: "air-1" } && r.Text.ToString().Contains("from 19:00 to 22:00", StringComparison.Ordinal));
        Assert.DoesNotContain(day.Whole.Window(WindowStage.KeepDry).Because, r => r.Kind == WindowReasonKind.Unheard);
    }

    // A slow, coarse probe in a bay that cools by a kelvin or two over night says the same for hours, and is right: habit alone may doubt it until it moves.
    [Fact]
    public void SlowCoarseProbe_OverNight_IsNeverToldStuck() => Gen.Select(Gen.Int[0, 1_000_000], Gen.Double[0.5, 2.5]).Sample(
        (seed, fallK) =>
        {
            var random = new Random(seed);
            TestShop shop = new(probes: [TestShop.Air("air-1") with { Every = TimeSpan.FromMinutes(10) }]);
            for (int minute = 0; minute <= 24 * 60; minute += 10)
            {
                double hour = minute / 60.0, night = Math.Clamp((hour - 10) / 12, 0, 1);
                double c = 20 + (hour < 10 ? Math.Sin(hour) : Math.Sin(10) * (1 - night)) - (fallK * night) + Noise(0.1), pct = 50 - (3 * (c - 20)) + Noise(0.5);
                shop.Read(hour, Math.Round(2 * c) / 2, Math.Round(pct));
            }

            Assert.DoesNotContain(shop.Happened.OfType<ShopEvent.ValueStood>(), e => !e.Still.MayBeBorneOut);
            Assert.Empty(shop.Shop.Tally.Rejected);

            double Noise(double most) => most * ((2 * random.NextDouble()) - 1);
        },
        iter: 12);

    /// <summary>
    /// Held against the same day without the faults as the finest probes tell it: a coarse one that keeps still is doubted itself, and is no measure of what is
    /// too early.
    /// </summary>
    private static void Check(StuckDay day, Fault[] faults)
    {
        TestShop sound = (day with { StepK = 0.01, StepPct = 0.01 }).Whole, faulty = day.Told(faults);
        DateTimeOffset? kept = sound.Window(WindowStage.KeepDry).ClosesAt!.Latest, release = faulty.Window(WindowStage.KeepDry).ClosesAt!.Latest;
        DateTimeOffset? by = sound.Window(WindowStage.Recoat).ClosesAt!.Earliest, closes = faulty.Window(WindowStage.Recoat).ClosesAt!.Earliest;
        Assert.False(release + ToleranceOf(day) < kept, $"released {kept - release} earlier");
        Assert.False(closes > by + ToleranceOf(day), $"closed {closes - by} later");
    }

    private static bool Silent(Kind kind) => kind is Kind.AirSilent or Kind.PanelSilent;
}
