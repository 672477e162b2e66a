using CsCheck;
using CureWatch.Fuzz.Targets;

namespace CureWatch.Service.Tests.Fuzz;

/// <summary>What a fuzzer does for minutes, for seconds: sound inputs, changed by chance, and every promise is kept.</summary>
public class AnyInputTests
{
    private const int Cases = 2_000;

    /// <summary>What makes numbers, texts and structure something else.</summary>
    private static readonly string[] Scraps =
    [
        "", "{", "}", "[", "]", ",", ":", "\"", "\\", "\\ud800", "\n", "\0", "é", "null", "true", "0", "-1", "1e400", "1e20", "0.5", "\"\"", "[]", "{}", "{\"a\":1}", "9999-12-31T23:59:59-14:00",
        "1900-01-01T00:00:00+14:00", "24:00", "23:59:59.9999999",
    ];

    private static readonly Gen<(double At, double Length, int With, byte Byte)[]> Changes =
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], Gen.Int[-4, Scraps.Length - 1], Gen.Byte).Array[1, 4];

    public static TheoryData<string> Targets { get; } = [.. FuzzTarget.All.Select(t => t.Name)];

    [Theory]
    [MemberData(nameof(Targets))]
    public void Seed_KeepsEveryPromise(string target) => Assert.All(Named(target).Seeds, Named(target).Take);

    [Theory]
    [MemberData(nameof(Targets))]
    public void AnyChange_KeepsEveryPromise(string target)
    {
        FuzzTarget named = Named(target);
        byte[][] seeds = [.. named.Seeds];
        Gen.Select(Gen.Int[0, seeds.Length - 1], Changes).Sample(
            (seed, changes) => named.Take(changes.Aggregate(seeds[seed], (input, c) => Changed(input, c.At, c.Length, c.With, c.Byte))),
            iter: Cases);
    }

    private static FuzzTarget Named(string target) => FuzzTarget.All.Single(t => t.Name == target);

    /// <summary>Cuts something out and puts in a scrap, another byte, or what stands elsewhere.</summary>
    private static byte[] Changed(byte[] input, double at, double length, int with, byte other)
    {
        int start = (int)(at * input.Length), end = start + (int)(Math.Pow(length, 4) * (input.Length - start));
        byte[] put = with switch
        {
            < -2 => [other],
            < 0 => input[(start / 2)..(end / 2)],
            _ => System.Text.Encoding.UTF8.GetBytes(Scraps[with]),
        };
        return [.. input[..start], .. put, .. input[end..]];
    }
}
