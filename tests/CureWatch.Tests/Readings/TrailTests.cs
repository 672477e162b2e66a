using CsCheck;
using CureWatch.Readings;

namespace CureWatch.Tests.Readings;

public class TrailTests
{
    private static readonly Gen<(bool Grows, int Of, int Much)> Step = Gen.Select(Gen.Bool, Gen.Int[0, 30], Gen.Int[0, 20]);

    // Every version ever made is kept beside a plain list, and new ones grow from any of them.
    [Fact]
    public void Trail_OfAnyVersion_StaysWhatItWas() => Step.Array[0, 60].Sample(steps =>
    {
        List<(Trail<int> Trail, int[] Same)> versions = [(new Trail<int>(), [])];
        int next = 0;
        foreach ((bool grows, int of, int much) in steps)
        {
            (Trail<int> trail, int[] same) = versions[of % versions.Count];
            int kept = Math.Min(much, same.Length);
            versions.Add(grows ? (trail.Append(next), [.. same, next++]) : (trail.Take(kept), same[..kept]));
        }

        foreach ((Trail<int> trail, int[] same) in versions)
        {
            Assert.Equal(same, Enumerable.Range(0, trail.Count).Select(i => trail[i]));
        }
    });

    [Fact]
    public void CountWhile_CountsTheLeadingRun() => Gen.Select(Gen.Int[0, 40], Gen.Int[-1, 41]).Sample((count, border) =>
    {
        Trail<int> trail = new();
        for (int i = 0; i < count; i++)
        {
            trail = trail.Append(i);
        }

        Assert.Equal(Math.Clamp(border, 0, count), trail.CountWhile(i => i < border));
    });

    [Fact]
    public void Index_PastTheEndOfAnOldVersion_IsRefused()
    {
        Trail<int> old = new Trail<int>().Append(1);
        _ = old.Append(2);
        Assert.Throws<ArgumentOutOfRangeException>(() => old[1]);
        Assert.Throws<ArgumentOutOfRangeException>(() => new Trail<int>().Last);
        Assert.Equal(1, old.Last);
    }
}
