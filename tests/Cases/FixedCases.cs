using System.Globalization;
using CsCheck;

namespace CureWatch;

/// <summary>
/// The cases of a property: the same ones in every run, so that a red run means a changed program. <c>CUREWATCH_SEED</c> chooses others and
/// <c>CUREWATCH_CASES</c> makes them so many times more, to look for what nobody has seen yet.
/// </summary>
/// <remarks>
/// CsCheck's own <c>Sample</c> draws new cases each time and is banned in tests. The tests' namespaces lie within this one, so a plain
/// <c>gen.Sample(…)</c> means these.
/// </remarks>
internal static class FixedCases
{
    private static readonly ulong Seed = Number("CUREWATCH_SEED") ?? 1;

    private static readonly int Times = (int)(Number("CUREWATCH_CASES") ?? 1);

    public static void Sample<T>(this Gen<T> gen, Action<T> check, int iter = 100)
    {
        var chance = new PCG(1, Seed);
        for (int i = 0; i < iter * Times; i++)
        {
            T drawn = gen.Generate(chance, null!, out _);
            try
            {
                check(drawn);
            }
            catch (Exception e)
            {
#pragma warning disable RS0030 // only its sampling is banned
                throw new InvalidOperationException($"Case {i} of seed {Seed}: {Check.Print(drawn)}", e);
#pragma warning restore RS0030
            }
        }
    }

    public static void Sample<T>(this Gen<T> gen, Func<T, bool> holds, int iter = 100) => gen.Sample(drawn => Assert.True(holds(drawn)), iter);

    public static void Sample<T1, T2>(this Gen<(T1, T2)> gen, Action<T1, T2> check, int iter = 100) => gen.Sample(d => check(d.Item1, d.Item2), iter);

    public static void Sample<T1, T2>(this Gen<(T1, T2)> gen, Func<T1, T2, bool> holds, int iter = 100) => gen.Sample(d => holds(d.Item1, d.Item2), iter);

    public static void Sample<T1, T2, T3>(this Gen<(T1, T2, T3)> gen, Action<T1, T2, T3> check, int iter = 100) =>
        gen.Sample(d => check(d.Item1, d.Item2, d.Item3), iter);

    public static void Sample<T1, T2, T3>(this Gen<(T1, T2, T3)> gen, Func<T1, T2, T3, bool> holds, int iter = 100) =>
        gen.Sample(d => holds(d.Item1, d.Item2, d.Item3), iter);

    public static void Sample<T1, T2, T3, T4>(this Gen<(T1, T2, T3, T4)> gen, Action<T1, T2, T3, T4> check, int iter = 100) =>
        gen.Sample(d => check(d.Item1, d.Item2, d.Item3, d.Item4), iter);

    public static void Sample<T1, T2, T3, T4>(this Gen<(T1, T2, T3, T4)> gen, Func<T1, T2, T3, T4, bool> holds, int iter = 100) =>
        gen.Sample(d => holds(d.Item1, d.Item2, d.Item3, d.Item4), iter);

    public static void Sample<T1, T2, T3, T4, T5>(this Gen<(T1, T2, T3, T4, T5)> gen, Action<T1, T2, T3, T4, T5> check, int iter = 100) =>
        gen.Sample(d => check(d.Item1, d.Item2, d.Item3, d.Item4, d.Item5), iter);

    private static ulong? Number(string variable) =>
        ulong.TryParse(Environment.GetEnvironmentVariable(variable), CultureInfo.InvariantCulture, out ulong number) ? number : null;
}
