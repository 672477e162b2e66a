using System.Globalization;
using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Backlog;

/// <summary>
/// One probe sends again and again what it stored, the newest reading first, while others of its bay and of another report each second: what that
/// costs the service, and how long the others wait for their acknowledgement.
/// </summary>
internal static class BacklogRun
{
    public const string Verb = "backlog";

    private const int Coats = 40;
    private const int InFlight = 40;
    private const int Late = 0, Beside = 1, Elsewhere = 2;

    /// <summary>The connection of what is late.</summary>
    private const int Alone = 3;

    /// <summary>What it stored: as much as is still believed, all but a margin for the time it takes.</summary>
    private static readonly TimeSpan Stored = TimeSpan.FromMinutes(13);

    private static readonly TimeSpan LiveEvery = TimeSpan.FromMilliseconds(100);

    /// <param name="seconds">For how long.</param>
    /// <param name="isNewestFirst">Whether the newest comes first; else the oldest.</param>
    public static async Task RunAsync(int seconds, bool isNewestFirst)
    {
        using var shop = new LoadShop(bays: 2, probesPerBay: 2);
        using Server server = await Server.CureWatchAsync(shop);
        await LoadShop.BringCarsAsync(server.Board!, cars: 1, Coats);
        using Crowd crowd = await Crowd.ConnectAsync(server.MqttPort, shop, connections: 4);
        for (int probe = 0; probe < 3; probe++)
        {
            await crowd.PublishAsync(probe, probe, TimeProvider.System.GetUtcNow(), 0);
        }

        Usage before = server.Usage();
        var besides = new List<double>();
        var elsewhere = new List<double>();
        using var ended = new CancellationTokenSource(TimeSpan.FromSeconds(seconds), TimeProvider.System);
        Task[] live = [LiveAsync(crowd, Beside, besides, ended.Token), LiveAsync(crowd, Elsewhere, elsewhere, ended.Token)];
        int sent = await BacklogAsync(crowd, isNewestFirst, ended.Token);
        await Task.WhenAll(live);
        Usage after = server.Usage();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{(isNewestFirst ? "newest" : "oldest")} first: {sent} late readings in {seconds} s; processor {(after.Processor - before.Processor).TotalSeconds:0.0} s; resident {before.ResidentBytes / 1e6:0} -> {after.ResidentBytes / 1e6:0} MB; "
            + $"allocated {(after.AllocatedBytes - before.AllocatedBytes) / 1e6:0} MB; acknowledgement p50/p99/longest beside {Shown(besides)} ms, elsewhere {Shown(elsewhere)} ms"));
    }

    private static string Shown(List<double> milliseconds)
    {
        double[] all = [.. milliseconds.Order()];
        return string.Create(CultureInfo.InvariantCulture, $"{Quantile.Of(all, 0.5):0.0}/{Quantile.Of(all, 0.99):0.0}/{Quantile.Of(all, 1):0.0}");
    }

    private static async Task LiveAsync(Crowd crowd, int probe, List<double> waits, CancellationToken ended)
    {
        for (int i = 0; !ended.IsCancellationRequested; i++)
        {
            long at = TimeProvider.System.GetTimestamp();
            await crowd.PublishAsync(probe, probe, TimeProvider.System.GetUtcNow(), i);
            waits.Add(TimeProvider.System.GetElapsedTime(at).TotalMilliseconds);
            await Task.Delay(LiveEvery, TimeProvider.System, CancellationToken.None); // it ends by itself: the reading on its way is heard
        }
    }

    /// <summary>A reading each half second of what it stored, then those between them, and so on: none is sent twice.</summary>
    private static async Task<int> BacklogAsync(Crowd crowd, bool isNewestFirst, CancellationToken ended)
    {
        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        int sent = 0, count = (int)(Stored / TimeSpan.FromMilliseconds(500));
        using var open = new SemaphoreSlim(InFlight);
        var last = new List<Task>();
        for (int round = 0; !ended.IsCancellationRequested; round++)
        {
            for (int i = 1; i <= count && !ended.IsCancellationRequested; i++, sent++)
            {
                await open.WaitAsync(CancellationToken.None);
                TimeSpan ago = TimeSpan.FromMilliseconds((500 * (isNewestFirst ? i : count + 1 - i)) - (7 * (round + 1)));
                last.Add(SendAsync(crowd, now - ago, sent, open));
            }
        }

        await Task.WhenAll(last);
        return sent;
    }

    private static async Task SendAsync(Crowd crowd, DateTimeOffset at, int number, SemaphoreSlim open)
    {
        try
        {
            await crowd.PublishAsync(Alone, Late, at, number);
        }
        finally
        {
            open.Release();
        }
    }
}
