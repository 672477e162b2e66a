using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Benchmarks.Fold;

/// <summary>A made-up shop of any size: a probe and a car in every bay, whose surfaces are coated in the first hours.</summary>
internal static class FoldShop
{
    /// <summary>Minutes after which the coats are on and levelled.</summary>
    public const int Settled = 180;

    private const int FirstCoat = 60;
    private const int MinutesApart = 5;
    private const int MinutesToLevel = 3;

    public static Shop Opening(int bays, int coats)
    {
        var probe = new Probe("air-1", Measures.Air, 0, 0, 0.3, 2, TimeSpan.FromMinutes(1));
        var plan = new ShopPlan(
            "benchmark",
            OpeningHours.Always(TimeZoneInfo.Utc),
            TimeSpan.FromMinutes(75),
            [.. Enumerable.Range(0, bays).Select(b => new BayPlan(Bay(b), 1013.25, Bay(b), [], [new ProbeMount(probe, null, Place.Outside)]))]);
        Shop shop = Shop.Opening(plan, BenchmarkDay.Sheets, BenchmarkDay.Start);
        return coats == 0 ? shop : Fold(shop, Enumerable.Range(0, bays).Select(b => Begun(b, coats)));
    }

    public static Shop Fold(Shop shop, IEnumerable<Message> messages) => messages.Aggregate(shop, (s, m) => ShopFold.Take(s, m).Shop);

    /// <summary>A reading a minute of every bay, and the taps of those minutes.</summary>
    public static IEnumerable<Message> Minutes(int bays, int coats, int from, int to)
    {
        for (int minute = from; minute < to; minute++)
        {
            (double airC, double humidityPct) = BenchmarkDay.ClimateAt(minute);
            for (int bay = 0; bay < bays; bay++)
            {
                DateTimeOffset at = At(minute) + TimeSpan.FromSeconds(60.0 * bay / bays);
                yield return new Message.ReadingCame(new RawReading(Bay(bay), "air-1", at, at, airC, humidityPct, null));
                if (TapAt(minute, coats) is var (surface, did))
                {
                    yield return Tap(bay, surface, did, at);
                }
            }
        }
    }

    private static (int Surface, Did Did)? TapAt(int minute, int coats) => Math.DivRem(minute - FirstCoat, MinutesApart) switch
    {
        ( >= 0 and var surface, 0) when surface < coats => (surface, Did.Applied),
        ( >= 0 and var surface, MinutesToLevel) when surface < coats => (surface, Did.Levelled),
        _ => null,
    };

    private static Message.JobStarted Begun(int bay, int coats) => new(
        new Job($"job-{bay}", Bay(bay), null, null, [.. Enumerable.Range(0, coats).Select(i => BenchmarkDay.Surface(i))]), BenchmarkDay.Start);

    private static Message.Tapped Tap(int bay, int surface, Did did, DateTimeOffset at) =>
        new($"job-{bay}", new Tap($"{did}-{surface}", at, at, $"surface-{surface}", did));

    private static DateTimeOffset At(int minute) => BenchmarkDay.Start + TimeSpan.FromMinutes(minute);

    private static string Bay(int number) => $"bay-{number}";
}
