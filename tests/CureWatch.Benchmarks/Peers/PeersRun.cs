using System.Globalization;
using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Peers;

/// <summary>
/// Other ways to keep the same readings for good, in one run: how many a second are stored, and what of the acknowledged is missing after a SIGKILL of
/// all there is. Needs Debian's mosquitto, mosquitto-clients, sqlite3 and python3.
/// </summary>
internal static class PeersRun
{
    public const string Verb = "peers";

    private const int UsualRounds = 3;
    private const int WarmUpPerConnection = 3_000;
    private const int MessagesPerConnection = 4_000;
    private const int ManyPerConnection = 5_000;
    private const int UsualKills = 5;
    private const int Seed = 1;

    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(100);

    /// <param name="options">How many kills of each, and rounds; may be left out.</param>
    public static async Task RunAsync(string[] options)
    {
        int kills = options.Length > 0 ? int.Parse(options[0], CultureInfo.InvariantCulture) : UsualKills;
        int rounds = options.Length > 1 ? int.Parse(options[1], CultureInfo.InvariantCulture) : UsualRounds;
        var rates = new Dictionary<string, List<double>>();
        for (int i = 0; i < rounds; i++)
        {
            foreach (Func<LoadShop, IStore> of in Contestants)
            {
                using var shop = new LoadShop(bays: 10, probesPerBay: 2);
                await using IStore store = of(shop);
                double rate = await RateAsync(store, shop);
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{store.Name}: {rate:0}/s"));
                (rates.TryGetValue(store.Name, out List<double>? all) ? all : rates[store.Name] = []).Add(rate);
            }
        }

        Console.WriteLine("| | stored /s | lowest | highest | acknowledged | of these lost | killed |");
        Console.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (Func<LoadShop, IStore> of in Contestants)
        {
            using var shop = new LoadShop(bays: 10, probesPerBay: 2);
            await using IStore store = of(shop);
            (int acknowledged, int lost) = await KillAsync(store, shop, kills);
            double[] sorted = [.. rates[store.Name].Order()];
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {store.Name} | {sorted[sorted.Length / 2]:0} | {sorted[0]:0} | {sorted[^1]:0} | {acknowledged} | {lost} | {kills} |"));
        }
    }

    private static Func<LoadShop, IStore>[] Contestants =>
        [shop => new CureWatchStore(shop), _ => SqliteStore.OfShell(), _ => SqliteStore.OfPython("each"), _ => SqliteStore.OfPython("gathered")];

    /// <returns>Readings stored a second, until the last of them is.</returns>
    private static async Task<double> RateAsync(IStore store, LoadShop shop)
    {
        await store.StartAsync();
        var load = new KeyedLoad();
        await load.RunAsync(store.Port, shop, WarmUpPerConnection);
        await StoredAsync(store, load.Acknowledged.Count);
        int before = load.Acknowledged.Count;
        long started = TimeProvider.System.GetTimestamp();
        await load.RunAsync(store.Port, shop, MessagesPerConnection);
        await StoredAsync(store, load.Acknowledged.Count);
        return (load.Acknowledged.Count - before) / TimeProvider.System.GetElapsedTime(started).TotalSeconds;
    }

    private static async Task StoredAsync(IStore store, int count)
    {
        while (await store.CountAsync() < count)
        {
            await Task.Delay(Step, TimeProvider.System);
        }
    }

    private static async Task<(int Acknowledged, int Lost)> KillAsync(IStore store, LoadShop shop, int kills)
    {
#pragma warning disable CA5394 // moments, no secrets
        var random = new Random(Seed);
        var load = new KeyedLoad();
        for (int i = 0; i < kills; i++)
        {
            await store.StartAsync();
            Task publishing = load.RunAsync(store.Port, shop, ManyPerConnection);
            await Task.Delay(TimeSpan.FromSeconds(0.3 + random.NextDouble()), TimeProvider.System);
            await store.KillAsync();
            await publishing;
        }
#pragma warning restore CA5394

        await store.StartAsync(); // what the broker still has for the database comes now
        HashSet<string> stored = await store.KeysAsync();
        return (load.Acknowledged.Count, load.Acknowledged.Count(k => !stored.Contains(k)));
    }
}
