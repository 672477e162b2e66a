using System.Diagnostics;
using System.Globalization;
using CureWatch.Bays;

namespace CureWatch.Benchmarks.Fold;

/// <summary>
/// What a reading costs the engine itself, without disk and network, in shops of ten to ten thousand bays; what a bay and a coat take of the
/// memory; and how long a bay's year takes to be folded.
/// </summary>
internal static class FoldRun
{
    public const string Verb = "fold";

    private const int Rounds = 5;
    private const int CoatsInYear = 20;

    /// <summary>Every shop is measured over the same hours of its bays, and of the coats in them: a reading costs what else falls due.</summary>
    private const int MinutesInRound = 60;

    private static readonly (int Coats, int[] Bays)[] Shops = [(0, [10, 100, 1_000, 10_000]), (4, [10, 100, 1_000]), (40, [10])];

    public static void Run()
    {
        WarmUp();
        Console.WriteLine($"bays   coats  CPU µs/reading (median of {Rounds})  of it collecting  bytes/reading  KB/bay with its coats");
        foreach ((int coats, int[] sizes) in Shops)
        {
            foreach (int bays in sizes)
            {
                Measure(coats, bays);
            }
        }

        Year();
    }

    /// <summary>One size of shop after another, again and again, each in a process of its own: they share what else the machine does, and no heap.</summary>
    public static void Compare(string coats, string[] sizes)
    {
        var costs = sizes.Distinct().ToDictionary(s => s, _ => new List<double>());
        for (int round = 0; round < Rounds; round++)
        {
            foreach (string bays in sizes)
            {
                var start = new ProcessStartInfo("dotnet", [typeof(FoldRun).Assembly.Location, Verb, coats, bays]) { RedirectStandardOutput = true };
                using Process one = Process.Start(start)!;
                string row = one.StandardOutput.ReadToEnd().TrimEnd();
                one.WaitForExit();
                Console.WriteLine(one.ExitCode == 0 ? row : throw new IOException($"{bays} bays: it ended with {one.ExitCode}."));
                string cost = row.Split(' ', StringSplitOptions.RemoveEmptyEntries)[2];
                costs[bays].Add(double.Parse(cost, CultureInfo.InvariantCulture));
            }
        }

        double[] ratios = [.. costs[sizes[^1]].Zip(costs[sizes[0]], (last, first) => last / first).Order()];
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{sizes[^1]} bays against {sizes[0]}: {ratios[Rounds / 2]:0.00} ({ratios[0]:0.00} to {ratios[^1]:0.00})"));
    }

    public static void RunOne(int coats, int bays)
    {
        WarmUp();
        Measure(coats, bays);
    }

    /// <summary>Other shops go first, the same for all, until the compiler has done its work.</summary>
    private static void WarmUp()
    {
        _ = FoldShop.Fold(FoldShop.Opening(100, 0), FoldShop.Minutes(100, 0, 0, 4_000));
        _ = FoldShop.Fold(FoldShop.Opening(100, 4), FoldShop.Minutes(100, 4, 0, 600));
    }

    private static void Measure(int coats, int bays)
    {
        long before = GC.GetTotalMemory(forceFullCollection: true);
        Shop shop = FoldShop.Opening(bays, coats);
        int minute = FoldShop.Settled;
        shop = FoldShop.Fold(shop, FoldShop.Minutes(bays, coats, 0, minute));
        double kilobytes = (GC.GetTotalMemory(forceFullCollection: true) - before) / 1024.0 / bays;
        (long allocated, TimeSpan paused) = (GC.GetTotalAllocatedBytes(), GC.GetTotalPauseDuration());
        double[] costs = [.. Enumerable.Range(0, Rounds).Select(_ =>
        {
            Message[] readings = [.. FoldShop.Minutes(bays, coats, minute, minute += MinutesInRound)];
            TimeSpan begun = Environment.CpuUsage.TotalTime;
            shop = FoldShop.Fold(shop, readings);
            return (Environment.CpuUsage.TotalTime - begun).TotalMicroseconds / readings.Length;
        }).Order()];
        double readingsMeasured = (double)Rounds * MinutesInRound * bays;
        double bytes = (GC.GetTotalAllocatedBytes() - allocated) / readingsMeasured, collecting = (GC.GetTotalPauseDuration() - paused).TotalMicroseconds / readingsMeasured;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{bays,6} {coats,5}  {costs[Rounds / 2],8:0.00} ({costs[0]:0.00} to {costs[^1]:0.00}) {collecting,8:0.00} {bytes,10:0} {kilobytes,12:0.0}"));
        GC.KeepAlive(shop);
    }

    private static void Year()
    {
        Shop shop = FoldShop.Opening(1, CoatsInYear);
        long begun = Stopwatch.GetTimestamp();
        TimeSpan used = Environment.CpuUsage.TotalTime;
        shop = FoldShop.Fold(shop, FoldShop.Minutes(1, CoatsInYear, 0, 365 * 24 * 60));
        double seconds = Stopwatch.GetElapsedTime(begun).TotalSeconds;
        double cpu = (Environment.CpuUsage.TotalTime - used).TotalSeconds;
        double megabytes = GC.GetTotalMemory(forceFullCollection: true) / 1024.0 / 1024.0;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"a year at a reading a minute, {CoatsInYear} coats: {seconds:0.0} s ({cpu:0.0} s of processor), {megabytes:0} MB after it"));
        GC.KeepAlive(shop);
    }
}
