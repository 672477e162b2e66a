using System.Globalization;
using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Durable;

/// <summary>
/// Durable QoS 1 throughput beside a bare embedded broker: alternating pairs in one run, each server a process of its own, one warm-up pair.
/// Both have the same listener; the bare one has nothing to tell it.
/// </summary>
internal static class DurableRun
{
    public const string Verb = "durable";

    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(6);

    /// <param name="options">How many pairs, bays, and coats on each of ten cars; all may be left out.</param>
    public static async Task RunAsync(string[] options)
    {
        int[] numbers = [.. options.Select(o => int.Parse(o, CultureInfo.InvariantCulture))];
        (int count, int bays, int coats) = (numbers.Length > 0 ? numbers[0] : 5, numbers.Length > 1 ? numbers[1] : 10, numbers.Length > 2 ? numbers[2] : 40);
        Console.WriteLine($"{bays} bays of {Trial.ProbesPerBay} probes, {Trial.CarsIn(bays)} cars of {coats} coats, {Load.Connections} connections of {Load.InFlight} in flight");
        Console.WriteLine("| pair | durable /s | bare /s | ratio | durable CPU µs | paused µs | bare CPU µs | durable bytes | bare bytes | outputs /s |");
        Console.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        var pairs = new List<(Outcome Durable, Outcome Bare)>();
        for (int i = 0; i <= count; i++)
        {
            (Outcome, Outcome) pair = (await Trial.OfCureWatchAsync(bays, coats, Measured), await Trial.OfBareAsync(bays, Measured));
            Console.WriteLine(Row(i == 0 ? "warm-up" : $"{i}", pair));
            if (i > 0)
            {
                pairs.Add(pair);
            }
        }

        double[] ratios = [.. pairs.Select(p => p.Durable.Rate / p.Bare.Rate).Order()];
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"median ratio {Quantile.Of(ratios, 0.5):0.00} ({ratios[0]:0.00} to {ratios[^1]:0.00}), durable {Median(pairs, p => p.Durable.Rate):0}/s at {Median(pairs, p => p.Durable.MicrosecondsEach):0.0} µs of its processor a message, bare {Median(pairs, p => p.Bare.Rate):0}/s at {Median(pairs, p => p.Bare.MicrosecondsEach):0.0} µs"));
    }

    private static string Row(string name, (Outcome Durable, Outcome Bare) pair) => string.Create(
        CultureInfo.InvariantCulture,
        $"| {name} | {pair.Durable.Rate:0} | {pair.Bare.Rate:0} | {pair.Durable.Rate / pair.Bare.Rate:0.00} | {pair.Durable.MicrosecondsEach:0.0} | {pair.Durable.PausedEach:0.0} | {pair.Bare.MicrosecondsEach:0.0} | {pair.Durable.BytesEach:0} | {pair.Bare.BytesEach:0} | {pair.Durable.Outputs:0} |");

    private static double Median(List<(Outcome Durable, Outcome Bare)> pairs, Func<(Outcome Durable, Outcome Bare), double> of) => Quantile.Of([.. pairs.Select(of).Order()], 0.5);
}
