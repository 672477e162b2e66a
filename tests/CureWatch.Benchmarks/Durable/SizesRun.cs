using System.Globalization;
using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Durable;

/// <summary>What a message costs the server in a small shop and in a large one, in alternating pairs under the same load.</summary>
/// <remarks>
/// Not the size alone: the large shop's probes speak a hundredth as often each, so that nearly every reading of theirs is looked at and shown, where the small
/// shop looks at one a second of each probe. No car is under coats.
/// </remarks>
internal static class SizesRun
{
    public const string Verb = "sizes";

    /// <summary>Long enough that what is told of the whole shop now and then is in it.</summary>
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(30);

    /// <param name="options">How many pairs, and the bays of the small shop and of the large one; all may be left out.</param>
    public static async Task RunAsync(string[] options)
    {
        int[] given = [.. options.Select(o => int.Parse(o, CultureInfo.InvariantCulture))];
        int pairs = given is [> 0, ..] ? given[0] : 5;
        (int small, int large) = given is [_, _, _, ..] ? (given[1], given[2]) : (100, 10_000);
        Console.WriteLine("| pair | bays | acknowledged /s | of each probe | CPU µs | paused µs | bytes | outputs /s |");
        Console.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        var ratios = new double[pairs];
        for (int i = 0; i < ratios.Length; i++)
        {
            double least = await CostAsync(i, small);
            ratios[i] = await CostAsync(i, large) / least;
        }

        Array.Sort(ratios);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{large} bays against {small}: {Quantile.Of(ratios, 0.5):0.00} ({ratios[0]:0.00} to {ratios[^1]:0.00})"));
    }

    private static async Task<double> CostAsync(int pair, int bays)
    {
        Outcome outcome = await Trial.OfCureWatchAsync(bays, coats: 0, Measured);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"| {pair + 1} | {bays} | {outcome.Rate:0} | {outcome.Rate / bays / Trial.ProbesPerBay:0.0} | {outcome.MicrosecondsEach:0.0} | {outcome.PausedEach:0.0} | {outcome.BytesEach:0} | {outcome.Outputs:0} |"));
        return outcome.MicrosecondsEach;
    }
}
