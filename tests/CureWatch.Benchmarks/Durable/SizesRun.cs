using System.Globalization;
using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Durable;

/// <summary>What a message costs the server in a small shop and in a large one, in alternating pairs under the same load: the large one is heard, and shown, bay by bay.</summary>
internal static class SizesRun
{
    public const string Verb = "sizes";

    /// <summary>Long enough that what is told of the whole shop now and then is in it.</summary>
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(30);

    /// <param name="options">How many pairs, the bays of the small shop and of the large one, and coats on each of ten cars; all may be left out.</param>
    public static async Task RunAsync(string[] options)
    {
        int[] given = [.. options.Select(o => int.Parse(o, CultureInfo.InvariantCulture))];
        int[] numbers = [.. given, .. new[] { 5, 100, 10_000, 4 }[given.Length..]];
        Console.WriteLine("| pair | bays | acknowledged /s | CPU µs | of it collecting | bytes | outputs /s |");
        Console.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: |");
        var ratios = new double[numbers[0]];
        for (int i = 0; i < ratios.Length; i++)
        {
            double small = await CostAsync(i, numbers[1], numbers[3]);
            ratios[i] = await CostAsync(i, numbers[2], numbers[3]) / small;
        }

        Array.Sort(ratios);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{numbers[2]} bays against {numbers[1]}: {Quantile.Of(ratios, 0.5):0.00} ({ratios[0]:0.00} to {ratios[^1]:0.00})"));
    }

    private static async Task<double> CostAsync(int pair, int bays, int coats)
    {
        Outcome outcome = await Trial.OfCureWatchAsync(bays, coats, Measured);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"| {pair + 1} | {bays} | {outcome.Rate:0} | {outcome.MicrosecondsEach:0.0} | {outcome.CollectingEach:0.0} | {outcome.BytesEach:0} | {outcome.Outputs:0} |"));
        return outcome.MicrosecondsEach;
    }
}
