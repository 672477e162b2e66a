using BenchmarkDotNet.Attributes;
using CureWatch.Bays;

namespace CureWatch.Benchmarks;

/// <summary>A day of one bay at a reading a minute, folded: what coats add to believing the readings.</summary>
/// <remarks>The coats go on and are levelled within the day, two taps each; every tap has all coats of its job looked at again.</remarks>
[MemoryDiagnoser]
public class ReplayDayBenchmark
{
    private readonly Shop _morning = BenchmarkDay.Shop();
    private readonly Message[] _noJob = BenchmarkDay.Messages(coats: 0);
    private readonly Message[] _oneCoat = BenchmarkDay.Messages(coats: 1);
    private readonly Message[] _twentyCoats = BenchmarkDay.Messages(coats: 20);

    [Benchmark(Baseline = true)]
    public Shop NoJob() => Fold(_noJob);

    [Benchmark]
    public Shop OneCoat() => Fold(_oneCoat);

    [Benchmark]
    public Shop TwentyCoats() => Fold(_twentyCoats);

    private Shop Fold(Message[] day) => day.Aggregate(_morning, (shop, message) => ShopFold.Take(shop, message).Shop);
}
