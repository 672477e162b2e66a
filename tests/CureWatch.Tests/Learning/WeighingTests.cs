using System.Collections.Immutable;
using CureWatch.Learning;

namespace CureWatch.Tests.Learning;

public sealed class WeighingTests(ITestOutputHelper output)
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private static Lesson At(double days, double? lnRatio, string bay = "bay-1") =>
        new("job-1", "bonnet", 1, 1, bay, Start.AddDays(days).AddMinutes(-2), Start.AddDays(days), lnRatio);

    private static LearntEffect Of(params IEnumerable<double> lnRatios)
    {
        ImmutableArray<Lesson> lessons = [.. lnRatios.Select((z, i) => At(0.01 * i, z))];
        return Weighing.Of(Effects.Unknown(Expectation.Flash), lessons, Expectation.Flash).After(lessons.Length).In("bay-1", Start, Expectation.Flash)!;
    }

    // A slip among the first taps has no more say than one among the last.
    [Fact]
    public void Slip_AmongTheFirst_CountsAsOneAmongTheLast()
    {
        double[] clean = [.. Enumerable.Range(0, 19).Select(i => 0.15 * Math.Sin(2 * i))];
        double without = Of(clean).Mean, first = Of(clean.Prepend(1.2)).Mean, last = Of(clean.Append(1.2)).Mean;
        Assert.Equal(last, first, 6);
        Assert.InRange(first - without, -0.005, 0.005);
    }

    [Fact]
    public void Scatter_IsLearntFromTheTaps()
    {
        (double tidy, double untidy) = (Doubt(0.05), Doubt(0.3));
        Assert.InRange(untidy / tidy, 2.5, 6);

        static double Doubt(double scatter) => Math.Sqrt(Of(Enumerable.Range(0, 30).Select(i => scatter * Math.Sqrt(2) * Math.Sin(2 * i))).Variance);
    }

    [Fact]
    public void Weights_AlikeOnBothSides_LeaveTheMiddle() => Assert.Equal(0, Of(-0.1, 0.1, -0.2, 0.2, 0).Mean, 2);

    /// <summary>
    /// What is known after twenty taps of invented products, by how far taps scatter, beside what somebody would know who was told which taps were slips
    /// and how far the others scatter: nobody can know more. One in twenty taps is a slip, anywhere within e² either way or always late.
    /// </summary>
    [Theory]
    [InlineData(0.10, false)]
    [InlineData(0.13, false)]
    [InlineData(0.163, false)]
    [InlineData(0.2, false)]
    [InlineData(0.10, true)]
    [InlineData(0.163, true)]
    public void Estimate_AfterTwentyTaps_IsNearTheBestThatCanBeKnown(double scatter, bool slipsAreLate)
    {
        const int Products = 1_000;
        var random = new Random(11);
        double squares = 0, best = 0;
        int near = 0, couldBeNear = 0, covered = 0;
        for (int product = 0; product < Products; product++)
        {
            double truth = 0.27 * InventedBay.Normal(random);
            bool[] slips = [.. Enumerable.Range(0, 20).Select(_ => random.NextDouble() < 0.05)];
            ImmutableArray<Lesson> lessons =
            [
                .. slips.Select((isSlip, i) => At(
                    1.5 * i,
                    truth + (!isSlip ? scatter * InventedBay.Normal(random) : slipsAreLate ? 0.4 + (1.2 * random.NextDouble()) : (4 * random.NextDouble()) - 2))),
            ];
            double[] meant = [.. lessons.Where((_, i) => !slips[i]).Select(l => l.LnRatio!.Value)];
            double oracle = meant.Sum() / (meant.Length + (scatter * scatter / (0.27 * 0.27)));
            LearntEffect known = Weighing.Of(Effects.Unknown(Expectation.Flash), lessons, Expectation.Flash)
                .After(lessons.Length).In("bay-1", lessons[^1].At, Expectation.Flash)!;
            squares += Square(known.Mean - truth);
            best += Square(oracle - truth);
            near += Math.Abs(Math.Exp(known.Mean - truth) - 1) <= 0.07 ? 1 : 0;
            couldBeNear += Math.Abs(Math.Exp(oracle - truth) - 1) <= 0.07 ? 1 : 0;
            covered += known.Low <= Math.Exp(truth) && Math.Exp(truth) <= known.High ? 1 : 0;
        }

        string slipsAre = slipsAreLate ? "late" : "anywhere";
        output.WriteLine(
            $"scatter {scatter}, slips {slipsAre}: within 7 % {0.1 * near:0.0} % of {0.1 * couldBeNear:0.0} %, "
            + $"error {100 * Math.Sqrt(squares / Products):0.00} % over {100 * Math.Sqrt(best / Products):0.00} %, 90 % interval covers {0.1 * covered:0.0} %");
        Assert.InRange(Math.Sqrt(squares / best), 0, slipsAreLate ? 1.12 : 1.08);
        Assert.InRange(0.001 * covered, 0.85, 0.97);

        static double Square(double x) => x * x;
    }
}
