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

    private const int Pairs = 5;
    private const int CoatsInYear = 20;
    private static readonly (int Coats, int[] Bays)[] Shops = [(0, [10, 100, 1_000, 10_000]), (4, [10, 100, 1_000]), (40, [10])];

    public static void Run()
    {
        Console.WriteLine("bays   coats  CPU µs/reading (median of 5)  bytes/reading  KB/bay with its coats");
        foreach ((int coats, int[] sizes) in Shops)
        {
            foreach (int bays in sizes)
            {
                Measure(bays, coats);
            }
        }

        Year();
    }

    public static void Measure(int bays, int coats)
    {
        long before = GC.GetTotalMemory(forceFullCollection: true);
        Shop shop = FoldShop.Opening(bays, coats);
        int minute = FoldShop.Settled;
        shop = FoldShop.Fold(shop, FoldShop.Minutes(bays, coats, 0, minute));
        double kilobytes = (GC.GetTotalMemory(forceFullCollection: true) - before) / 1024.0 / bays;
        int rounds = Math.Max(1, 40_000 / bays);
        long allocated = GC.GetTotalAllocatedBytes();
        double[] costs = [.. Enumerable.Range(0, Pairs).Select(_ =>
        {
            Message[] readings = [.. FoldShop.Minutes(bays, coats, minute, minute += rounds)];
            TimeSpan begun = Environment.CpuUsage.TotalTime;
            shop = FoldShop.Fold(shop, readings);
            return (Environment.CpuUsage.TotalTime - begun).TotalMicroseconds / readings.Length;
        }).Order()];
        allocated = (GC.GetTotalAllocatedBytes() - allocated) / ((long)Pairs * rounds * bays);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{bays,6} {coats,5}  {costs[Pairs / 2],8:0.00} ({costs[0]:0.00} to {costs[^1]:0.00}) {allocated,12} {kilobytes,12:0.0}"));
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
