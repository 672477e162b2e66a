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

        Assert.Equal(Math.Clamp(border, 0, count), trail.CountWhile((in i) => i < border));
    });

    [Fact]
    public void From_GivesAllThatFollows_ByWhatLiesSideBySide() => Gen.Select(Gen.Int[1, 1_300], Gen.Int[0, 1_299]).Sample((count, first) =>
    {
        Trail<int> longer = new();
        for (int i = 0; i < count + 3; i++)
        {
            longer = longer.Append(i);
        }

        Trail<int> trail = longer.Take(count);
        List<int> found = [];
        for (int next = first; next < trail.Count; next = first + found.Count)
        {
            found.AddRange(trail.From(next));
        }

        Assert.Equal(Enumerable.Range(0, count).Skip(first), found);
    });

    [Fact]
    public void Index_OfAnItem_LeadsToWhereItStays()
    {
        Trail<int> trail = new Trail<int>().Append(1).Append(2);
        ref readonly int second = ref trail.Last;
        for (int i = 3; i < 40; i++)
        {
            trail = trail.Append(i);
        }

        Assert.Equal(2, second);
    }

    [Fact]
    public void Index_PastTheEndOfAnOldVersion_IsRefused()
    {
        Trail<int> old = new Trail<int>().Append(1);
        _ = old.Append(2);
        Assert.Throws<ArgumentOutOfRangeException>(() => old[1]);
        Assert.Throws<ArgumentOutOfRangeException>(() => new Trail<int>().Last);
        Assert.Equal(1, old.Last);
    }

    // Two threads extend the same newest version at once, over and over, as a page and the pump do; each keeps what it added.
    [Fact]
    public void Trail_ExtendedByTwoThreadsAtOnce_GivesEachItsOwn()
    {
        const int Rounds = 5_000;
        Trail<int>[] shared = [.. Enumerable.Range(0, Rounds).Select(_ => new Trail<int>().Append(-1))];
        int[] arrived = new int[Rounds];
        Trail<int>[][] grown = [new Trail<int>[Rounds], new Trail<int>[Rounds]];
        Parallel.For(0, 2, new ParallelOptions { MaxDegreeOfParallelism = 2 }, thread =>
        {
            for (int round = 0; round < Rounds; round++)
            {
                Interlocked.Increment(ref arrived[round]);
                SpinWait.SpinUntil(() => Volatile.Read(ref arrived[round]) == 2, TimeSpan.FromMilliseconds(100));
                grown[thread][round] = shared[round].Append(thread).Append(thread);
            }
        });

        Assert.All(grown[0], own => Assert.Equal([-1, 0, 0], Enumerable.Range(0, own.Count).Select(i => own[i])));
        Assert.All(grown[1], own => Assert.Equal([-1, 1, 1], Enumerable.Range(0, own.Count).Select(i => own[i])));
    }
}
