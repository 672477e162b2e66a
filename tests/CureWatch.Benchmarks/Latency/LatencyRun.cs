using System.Globalization;
using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Latency;

/// <summary>
/// From a reading's publication to the retained climate that shows it, as a subscriber sees it. Where bays report more often than four times a second
/// their climates are coalesced, and only readings that were shown count.
/// </summary>
internal static class LatencyRun
{
    public const string Verb = "latency";

    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(30);

    private static readonly (int Bays, int PerSecond)[] Usual = [(100, 100), (1_000, 1_000), (5_000, 5_000), (10_000, 1_000), (1, 4), (1_000, 5_000)];

    /// <param name="options">Bays and readings a second, again and again; the usual table where left out.</param>
    public static async Task RunAsync(string[] options)
    {
        int[] numbers = [.. options.Select(o => int.Parse(o, CultureInfo.InvariantCulture))];
        (int Bays, int PerSecond)[] rows = numbers.Length == 0 ? Usual : [.. numbers.Chunk(2).Select(n => (n[0], n[1]))];
        Console.WriteLine("| bays | readings /s | acknowledged /s | shown /s | p50 ms | p99 ms | longest ms | CPU µs a reading | bytes a reading | resident MB |");
        Console.WriteLine("| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach ((int bays, int perSecond) in rows)
        {
            await MeasureAsync(bays, perSecond);
        }
    }

    private static async Task MeasureAsync(int bays, int perSecond)
    {
        using var shop = new LoadShop(bays, probesPerBay: 1);
        using Server server = await Server.CureWatchAsync(shop);
        using Feed feed = await Feed.ConnectAsync(server.MqttPort, shop, perSecond);
        await feed.RunAsync(WarmUp);
        feed.Forget();
        _ = feed.TakeLatencies();
        (Usage before, int acknowledged) = (server.Usage(), feed.Acknowledged);
        await feed.RunAsync(Measured);
        Usage after = server.Usage();
        double readings = feed.Acknowledged - acknowledged;
        double[] latencies = feed.TakeLatencies();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"| {bays} | {perSecond} | {readings / Measured.TotalSeconds:0} | {latencies.Length / Measured.TotalSeconds:0} | {Quantile.Of(latencies, 0.5):0.0} | {Quantile.Of(latencies, 0.99):0.0} | {Quantile.Of(latencies, 1):0.0} | {(after.Processor - before.Processor).TotalMicroseconds / readings:0.0} | {(after.AllocatedBytes - before.AllocatedBytes) / readings:0} | {after.ResidentBytes / 1e6:0} |"));
    }
}
