using CureWatch.Learning;

namespace CureWatch.Tests.Learning;

public class EffectsTests
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    // A product alone, one product's bays being alike, and late observations judged as early ones: a case that was worked out by hand.
    private static readonly Expectation Alone = new(0.3 * 0.3, 0, 0.2 * 0.2, LateFreedom: 4);

    private static Lesson At(double days, double? lnRatio, string bay = "bay-1") =>
        new("job-1", "bonnet", 1, 1, bay, Start.AddDays(days).AddMinutes(-2), Start.AddDays(days), lnRatio);

    /// <summary>What is known once observations were weighed as they came.</summary>
    private static Effects AsTheyCame(Expectation expectation, params Lesson[] lessons) =>
        Weighing.AsTheyCame(Effects.Unknown(expectation), [.. lessons], expectation).After(lessons.Length);

    [Fact]
    public void Observation_Faster_MovesTheMeanByItsWeight()
    {
        LearntEffect effect = AsTheyCame(Alone, At(0, Math.Log(2.4 / 3))).In("bay-1", Start, Alone)!;
        Assert.Equal(-0.15448, effect.Mean, 5);
        Assert.Equal(0.16641, Math.Sqrt(effect.Variance), 5);
        Assert.Equal(2.571, 3 * effect.Factor, 3);
        double next = 1.645 * Math.Sqrt(effect.Variance + Alone.NoiseVariance);
        Assert.Equal(1.68, 3 * effect.Factor * Math.Exp(-next), 2);
        Assert.Equal(3.94, 3 * effect.Factor * Math.Exp(next), 2);
    }

    [Fact]
    public void Observation_Wild_HasLittleWeight()
    {
        Lesson[] told = [At(0, Math.Log(2.4 / 3)), At(0, Math.Log(9 / 3.0))];
        double mean = AsTheyCame(Alone, told).In("bay-1", Start, Alone)!.Mean;
        Assert.Equal(0.184, Alone.WeightOf(4.82), 3);
        Assert.Equal(-0.013, mean, 3);
        double late = AsTheyCame(Alone with { LateFreedom = 3 }, told).In("bay-1", Start, Alone)!.Mean;
        Assert.True(late < mean);
    }

    /// <summary>What is known once observations of a flash were weighed by one another.</summary>
    private static Effects Weighed(params Lesson[] lessons) =>
        Weighing.Of(Effects.Unknown(Expectation.Flash), [.. lessons], Expectation.Flash).After(lessons.Length);

    [Theory]
    [InlineData(9.0)]
    [InlineData(-9.0)]
    public void Observation_BeyondSixDeviations_IsCountedAndTeachesNothing(double lnRatio)
    {
        Effects before = Weighed(At(0, 0.1)), after = Weighed(At(0, 0.1), At(0, lnRatio));
        Assert.Equal((before.Mean, before.Variance), (after.Mean, after.Variance));
        Assert.Equal((1, 1, 0), (after.ByBay["bay-1"].Taken, after.ByBay["bay-1"].FarOff, after.ByBay["bay-1"].Unwatched));
    }

    [Fact]
    public void Observation_Unwatched_IsCountedAndTeachesNothing()
    {
        Effects after = Weighed(At(0, null));
        Assert.Equal((0, 1), (after.ByBay["bay-1"].Taken, after.ByBay["bay-1"].Unwatched));
        Assert.Null(after.In("bay-1", Start, Expectation.Flash));
    }

    // The same three bays by the full covariance of all effects at once, with plain matrix algebra: b is common, d differs from bay to bay.
    [Fact]
    public void Bays_TaughtInTurns_AreKnownAsByTheFullCovariance()
    {
        (string Bay, double Z)[] told = [("a", 0.2), ("b", -0.1), ("a", 0.25), ("c", 0.05), ("b", -0.2), ("c", 0.1), ("a", 0.1)];
        string[] bays = ["a", "b", "c"];
        var expectation = new Expectation(0.09, 0.0225, 0.04, double.PositiveInfinity, double.PositiveInfinity);
        double[] mean = new double[4];
        double[,] covariance = new double[4, 4];
        (covariance[0, 0], covariance[1, 1], covariance[2, 2], covariance[3, 3]) = (0.09, 0.0225, 0.0225, 0.0225);
        foreach ((string bay, double z) in told)
        {
            int own = 1 + Array.IndexOf(bays, bay);
            double[] withSum = [.. Enumerable.Range(0, 4).Select(i => covariance[i, 0] + covariance[i, own])];
            double total = withSum[0] + withSum[own] + expectation.NoiseVariance, surprise = z - mean[0] - mean[own];
            for (int i = 0; i < 4; i++)
            {
                mean[i] += withSum[i] * surprise / total;
                for (int j = 0; j < 4; j++)
                {
                    covariance[i, j] -= withSum[i] * withSum[j] / total;
                }
            }
        }

        Effects known = AsTheyCame(expectation with { EarlyFreedom = 1e12, LateFreedom = 1e12 }, [.. told.Select(t => At(0, t.Z, t.Bay))]);
        for (int i = 0; i < 3; i++)
        {
            LearntEffect effect = known.In(bays[i], Start, expectation)!;
            Assert.Equal(mean[0] + mean[i + 1], effect.Mean, 9);
            Assert.Equal(covariance[0, 0] + (2 * covariance[0, i + 1]) + covariance[i + 1, i + 1], effect.Variance, 9);
        }

        LearntEffect elsewhere = known.In("d", Start, expectation)!;
        Assert.Equal(mean[0], elsewhere.Mean, 9);
        Assert.Equal(covariance[0, 0] + expectation.BayVariance, elsewhere.Variance, 9);
    }

    [Fact]
    public void Knowledge_GrowsOldByTheStatedPaceAndNeverBeyondWhatItWas()
    {
        Effects known = Weighed([.. Enumerable.Range(0, 30).Select(_ => At(0, -0.3))]);
        double now = Variance(0);
        Assert.Equal(now + (10 * 0.005 * 0.005), Variance(10), 9);
        Assert.InRange(Variance(100_000), 0.07, 0.1125);
        Assert.Equal(known.In("bay-1", Start, Expectation.Flash)!.Mean, known.In("bay-1", Start.AddDays(100), Expectation.Flash)!.Mean, 12);

        double Variance(double days) => known.In("bay-1", Start.AddDays(days), Expectation.Flash)!.Variance;
    }
}
