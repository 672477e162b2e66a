using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Days;

/// <summary>
/// A day on which everything goes wrong that a probe can do: a panel probe dies, a humidity probe sticks, and for three hours nobody is heard. Releases
/// only move later, deadlines only earlier, against the same day without each of it, and each has its reason.
/// </summary>
public class BadDayTests
{
    private static readonly DateTimeOffset Start = TestShop.Start;

    /// <summary>What is past is kept by the minute and later by ten, which moves a window of minutes that is over by a fraction of a second.</summary>
    private static readonly TimeSpan Rounding = TimeSpan.FromSeconds(1);

    [Theory]
    [InlineData(true, false, false)]
    [InlineData(false, true, false)]
    [InlineData(false, false, true)]
    [InlineData(true, true, true)]
    public void EachFault_MovesReleasesOnlyLater_AndDeadlinesOnlyEarlier_AndIsToldOnce(bool panelDies, bool humiditySticks, bool outage)
    {
        Shop good = Day(false, false, false).Shop, bad = Day(panelDies, humiditySticks, outage).Shop;
        foreach ((CoatReport sound, CoatReport hurt) in Coats(good).Zip(Coats(bad)))
        {
            foreach ((Window before, Window after) in sound.Windows.Zip(hurt.Windows))
            {
                bool isRelease = before.Stage is WindowStage.KeepDry or WindowStage.NoWash or WindowStage.FullCure;
                Assert.False(isRelease && after.ClosesAt!.Latest < before.ClosesAt!.Latest - Rounding, $"{before.Stage} is over earlier");
                Assert.False(!isRelease && after.ClosesAt?.Earliest > before.ClosesAt?.Earliest + Rounding, $"{before.Stage} closes later: {before.ClosesAt!.Earliest:O}, {after.ClosesAt!.Earliest:O}");
            }
        }

        Assert.Equal(panelDies ? 1 : 0, Told(bad, "panel-1", WarningKind.ProbeSilent).Count(w => w.ClearedAt is null));
        Assert.Equal(humiditySticks ? 1 : 0, Told(bad, "air-1", WarningKind.ProbeImplausible).Count());
        Assert.True(!outage || Told(bad, "air-2", WarningKind.ProbeSilent).Count() == 1);
        Assert.All(bad.Warnings.Values, w => Assert.NotEmpty(AlarmRule.Of(w.Subject.Kind).Action.ToString()));
    }

    [Theory]
    [InlineData(1, false)]
    [InlineData(7, false)]
    [InlineData(2000, false)]
    [InlineData(1, true)]
    [InlineData(7, true)]
    [InlineData(2000, true)]
    public void SameDay_HoweverItIsBatched_IsTheSame(int batch, bool panelSticks)
    {
        (Shop live, List<ShopEvent> happened) = Day(true, true, true, panelSticks);
        Shop replayed = Empty();
        var again = new List<ShopEvent>();
        foreach (Message[] some in Messages(true, true, true, panelSticks).Chunk(batch))
        {
            foreach (Message message in some)
            {
                (replayed, ImmutableArray<ShopEvent> events) = ShopFold.Take(replayed, message);
                again.AddRange(events);
            }

            (replayed, ImmutableArray<ShopEvent> passed) = ShopFold.Take(replayed, new Message.ClockReached(some[^1].At));
            again.AddRange(passed);
        }

        Assert.Equal(Told(happened), Told(again));
        Assert.Equal(StillsOf(live), StillsOf(replayed));
        Assert.Contains(StillsOf(live), s => s.What == (panelSticks ? Quantity.Temperature : Quantity.Humidity));
        Assert.Equal(live.Tally.Rejected, replayed.Tally.Rejected);
        Assert.Equal(Coats(live).SelectMany(c => c.Windows), Coats(replayed).SelectMany(c => c.Windows));
    }

    private static IEnumerable<ShopEvent> Told(IEnumerable<ShopEvent> happened) =>
        happened.Where(e => e is ShopEvent.WarningRaised or ShopEvent.WarningCleared or ShopEvent.RulingTurned or ShopEvent.ProbeOutvoted or ShopEvent.ValueStood or ShopEvent.ValueMoved);

    private static IEnumerable<Warning> Told(Shop shop, string probe, params WarningKind[] kinds) =>
        shop.Warnings.Values.Where(w => w.Subject.Probe == probe && kinds.Contains(w.Subject.Kind));

    private static Still[] StillsOf(Shop shop) => [.. shop.Bays["bay-1"].Logs.SelectMany(l => l.Standing.Stills)];

    private static CoatReport[] Coats(Shop shop) => [.. JobReport.Of(shop, "job-1").Surfaces.SelectMany(s => s.Coats)];

    private static (Shop Shop, List<ShopEvent> Happened) Day(bool panelDies, bool humiditySticks, bool outage, bool panelSticks = false)
    {
        Shop shop = Empty();
        var happened = new List<ShopEvent>();
        foreach (Message message in Messages(panelDies, humiditySticks, outage, panelSticks))
        {
            (shop, ImmutableArray<ShopEvent> events) = ShopFold.Take(shop, message);
            happened.AddRange(events);
        }

        return (shop, happened);
    }

    private static Shop Empty()
    {
        ProbeMount[] probes =
        [
            new(TestShop.Air("air-1"), null, Place.Outside), new(TestShop.Air("air-2"), null, Place.Outside),
            new(TestShop.Panel("panel-1"), Material.Steel, Place.Outside),
        ];
        var plan = new ShopPlan("test-shop", OpeningHours.Always(TimeZoneInfo.Utc), TimeSpan.FromMinutes(75), [new BayPlan("bay-1", 1013.25, "hall", [], [.. probes])]);
        return Shop.Opening(plan, [TestShop.Paint()], Start);
    }

    private static IEnumerable<Message> Messages(bool panelDies, bool humiditySticks, bool outage, bool panelSticks)
    {
        var surface = new Surface("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 1, 1);
        yield return new Message.JobStarted(new Job("job-1", "bay-1", null, null, [surface]), Start);
        for (int minute = 1; minute <= 10 * 60; minute++)
        {
            double hour = minute / 60.0, c = 19 + (1.5 * Math.Sin(hour * 2)), pct = 52 + (4 * Math.Sin(hour * 5));
            DateTimeOffset at = Start.AddMinutes(minute);
            if (!outage || hour is < 4 or >= 7)
            {
                yield return Came("air-1", at, c, humiditySticks && hour > 2 ? 54.3 : pct, null);
                yield return Came("air-2", at, c + 0.1, pct - 0.5, null);
            }

            if ((!outage || hour is < 4 or >= 7) && (!panelDies || hour < 3))
            {
                yield return Came("panel-1", at, null, null, panelSticks && hour is > 1.5 and < 2.5 ? 18.5 : c - 0.8);
            }

            if (minute is 60 or 63)
            {
                yield return new Message.Tapped("job-1", new Tap($"t{minute}", at, at, "bonnet", minute == 60 ? Did.Applied : Did.Levelled));
            }
        }
    }

    private static Message.ReadingCame Came(string probe, DateTimeOffset at, double? c, double? pct, double? panelC) =>
        new(new RawReading("bay-1", probe, at, at, c, pct, panelC));
}
