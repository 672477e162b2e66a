using System.Globalization;
using CureWatch.Benchmarks.Harness;
using CureWatch.Benchmarks.Latency;

namespace CureWatch.Benchmarks.Soak;

/// <summary>A steady rate for as long as one likes, and a line a minute: nothing may grow but the journal.</summary>
internal static class SoakRun
{
    public const string Verb = "soak";

    private const int MostBays = 1_000;
    private const int Cars = 10;
    private const int Coats = 40;

    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    /// <param name="minutes">How long.</param>
    /// <param name="perSecond">Readings a second, in as many bays, a thousand at most.</param>
    public static async Task RunAsync(int minutes, int perSecond)
    {
        using var shop = new LoadShop(Math.Min(perSecond, MostBays), probesPerBay: 1);
        using Server server = await Server.CureWatchAsync(shop);
        await LoadShop.BringCarsAsync(server.Board!, Math.Min(Cars, shop.Bays), Coats);
        using Feed feed = await Feed.ConnectAsync(server.MqttPort, shop, perSecond);
        Console.WriteLine($"{shop.Bays} bays, {Math.Min(Cars, shop.Bays)} cars of {Coats} coats, {perSecond} readings a second");
        Console.WriteLine("| minute | resident MB | heap MB | journal MB | acknowledged | open | p50 ms | p99 ms | processor % | full collections |");
        Console.WriteLine("| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        for (int minute = 1; minute <= minutes; minute++)
        {
            TimeSpan before = server.Usage().Processor;
            await feed.RunAsync(Minute);
            Usage now = server.Usage();
            double[] latencies = feed.TakeLatencies();
            feed.Forget(); // coalesced readings are never shown
            long journal = new DirectoryInfo(shop.Journal).EnumerateFiles().Sum(f => f.Length);
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {minute} | {now.ResidentBytes / 1e6:0} | {now.HeapBytes / 1e6:0} | {journal / 1e6:0} | {feed.Acknowledged} | {feed.Open} | {Quantile.Of(latencies, 0.5):0.0} | {Quantile.Of(latencies, 0.99):0.0} | {100 * (now.Processor - before) / Minute:0} | {now.FullCollections} |"));
        }
    }
}
