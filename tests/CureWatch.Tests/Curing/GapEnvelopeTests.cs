using CsCheck;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;
using static CureWatch.Tests.Curing.Segments;

namespace CureWatch.Tests.Curing;

public class GapEnvelopeTests
{
    private static readonly RateLaw[] Laws =
    [
        Law(53e3, 0.7), Law(50e3, 0.6), Law(25e3, 1.2), Law(43e3, 0.2, Mechanism.Evaporation),
        new(Mechanism.Evaporation, byDeficit: true, 43e3, 1, ReferenceClimate.Usual),
        new(Mechanism.Evaporation, byDeficit: true, 43e3, 1, ReferenceClimate.Usual) { IsForRelease = true },
    ];

    // Own integration in another language: 20 °C/50 %, then 17 °C/55 % two hours later, 4 K/h and 3 K/h (dew point) in between.
    [Theory]
    [InlineData(53e3, 0.7, 1.644, 1.851070285348614, 2.0926475447774995)]
    [InlineData(50e3, 0.6, 1.656, 1.854, 2.083)]
    public void Gap_BetweenTwoReadings_EarnsItsEnvelopes(double e, double m, double slow, double interpolated, double fast)
    {
        Credit credit = CureIntegral.Over(Law(e, m), Gap(2, At(20, 50), At(17, 55)));
        Assert.Equal(slow, credit.Slow, 5e-4);
        Assert.Equal(interpolated, credit.Likely, 5e-4);
        Assert.Equal(fast, credit.Fast, 5e-4);
    }

    // Whatever a bay did that obeys the limits: 4 K/h for its temperature, 3 K/h for its dew point, from minute to minute.
    [Fact]
    public void Gap_HoldsWhateverMayHaveBeenInIt() => Gen.Select(Gen.Int[0, 1_000_000], Gen.Double[-5, 35], Gen.Double[5, 95], Gen.Int[31, 400]).Sample(
        (seed, airC, humidityPct, minutes) =>
        {
            Exposure[] path = [.. Wander(new Random(seed), At(airC, humidityPct), minutes)];
            foreach (RateLaw law in Laws)
            {
                Credit truth = default;
                for (int i = 1; i < path.Length; i++)
                {
                    truth += CureIntegral.Over(law, Over(1 / 60.0, path[i - 1], path[i]));
                }

                Credit gap = CureIntegral.Over(law, Gap((path.Length - 1) / 60.0, path[0], path[^1]));
                Assert.True(gap.Slow <= truth.Slow * (1 + 1e-3), $"{gap.Slow} counted on, {truth.Slow} cured");
                Assert.True(gap.Fast >= (truth.Fast * (1 - 5e-3)) - 2e-4, $"{law}: {gap.Fast} reckoned with, {truth.Fast} cured in {path.Length} min, {path[0]} {path[^1]}");
                Assert.True(gap.Slow <= gap.Likely && gap.Likely <= gap.Fast);
            }
        });

    // A button without a clock says 1970: what nobody measured since is cut into no more pieces than an afternoon is.
    [Theory]
    [InlineData(-500_000)]
    [InlineData(500_000)]
    public void Gap_OfDecades_HasFewPieces(double hours)
    {
        ClimateSegment gap = Gap(Math.Abs(hours), At(20, 50), At(17, 55));
        Unseen unseen = gap.Unseen!;
        Unseen seenFrom = hours < 0 ? unseen with { Air = [.. unseen.Air.Select(b => b with { From = gap.End, To = null })] } : unseen;

        Assert.InRange(GapEnvelope.PieceEnds(gap, seenFrom).Count, 2, 300);
    }

    // A second reading anywhere, also where no bay gets by then: what the open gap had earned stays, at every instant in it.
    [Fact]
    public void Gap_ThatCloses_EarnsTheSlowBoundNoLessThanWhileOpen() => Gen.Select(Climate, Climate, Gen.Double[0.51, 12], Gen.Double[0.05, 1]).Sample(
        (first, second, hours, share) =>
        {
            foreach (RateLaw law in Laws)
            {
                ClimateSegment closed = Gap(hours, first, second), open = Opened(closed, first);
                DateTimeOffset until = closed.Start + ((closed.End - closed.Start) * share);
                Credit before = CureIntegral.Over(law, open.Between(open.Start, until)), after = CureIntegral.Over(law, closed.Between(closed.Start, until));
                Assert.True(!law.IsForRelease || after.Slow >= before.Slow - 1e-6, $"{before.Slow} became {after.Slow}");
                Assert.True(after.Slow <= after.Likely && after.Likely <= after.Fast);
                Assert.True(
                    IsFar(first, second, hours) || (after.Fast <= before.Fast * (1 + 1e-3) && after.Slow >= before.Slow - 1e-3),
                    $"{before} became {after}");
            }
        });

    // An envelope may bend inside a piece, where one corner of the climates takes over from another; and where two readings lie farther apart than
    // a bay moves, each part takes the greater of the envelope and the line between them, so that parts may reckon with more, never with less.
    [Fact]
    public void Gap_InParts_EarnsWhatTheWholeDoes() => Gen.Select(Climate, Climate, Gen.Double[0.51, 12], Gen.Double[0.05, 0.95]).Sample(
        (first, second, hours, share) =>
        {
            ClimateSegment closed = Gap(hours, first, second);
            DateTimeOffset middle = closed.Start + ((closed.End - closed.Start) * share);
            foreach (ClimateSegment gap in new[] { closed, Opened(closed, first) })
            {
                Credit whole = CureIntegral.Over(Laws[0], gap);
                Credit parts = CureIntegral.Over(Laws[0], gap.Between(gap.Start, middle)) + CureIntegral.Over(Laws[0], gap.Between(middle, gap.End));
                Assert.Equal(whole.Slow, parts.Slow, 1.5e-3 * hours);
                Assert.InRange(parts.Fast, whole.Fast * (1 - 2e-3), whole.Fast * 1.1);
            }
        });

    // The first half hour may be a pause between two readings, and beyond six hours nobody knows.
    [Theory]
    [InlineData(0.4, 0)]
    [InlineData(0.9, 0.3)]
    public void Gap_StillOpen_EarnsCureFromHalfAnHourOn(double hours, double most)
    {
        ClimateSegment gap = Gap(hours, At(20, 40), At(20, 40));
        double slow = CureIntegral.Over(Law(53e3, 0.7), Opened(gap, At(20, 40))).Slow;
        Assert.InRange(slow, 0.6 * most, most);
    }

    [Fact]
    public void Gap_StillOpen_StopsEarningAtSixHours()
    {
        // A law without a climate, in air where no envelope meets a clamp: 20 K and 18 K away a film is still neither dry nor moist.
        RateLaw law = Law(0, 0);
        Exposure held = At(30, 20);
        Credit nine = CureIntegral.Over(law, Opened(Gap(9, held, held), held)), six = CureIntegral.Over(law, Opened(Gap(6, held, held), held));
        Assert.Equal(six.Slow, nine.Slow, 1e-9);
        Assert.True(nine.Fast > six.Fast);
    }

    [Fact]
    public void Gap_StillOpen_WithAProbeThatIsHeard_EarnsTheSlowBoundOfCureNothing()
    {
        ClimateSegment gap = Opened(Gap(2, At(20, 40), At(20, 40)), At(20, 40));
        Assert.Equal(0, CureIntegral.Over(Law(53e3, 0.7), gap with { Unseen = gap.Unseen! with { IsDark = false } }).Slow);
    }

    [Fact]
    public void Gap_AwayFromAnyProbe_EarnsTheSlowBoundNothing()
    {
        ClimateSegment gap = Gap(2, At(20, 50), At(17, 55));
        Assert.Equal(0, CureIntegral.Over(Law(53e3, 0.7), gap with { Unseen = gap.Unseen! with { IsElsewhere = true } }).Slow);
    }

    // A door stood open: 12 K colder after an hour is out of reach of 4 K/h and of 8 K/h. The step may have come at once, or at the end.
    [Fact]
    public void Gap_WithAStepInIt_IsBoundedByAnEarlyAndALateOne()
    {
        RateLaw law = Law(53e3, 0.7);
        Credit gap = CureIntegral.Over(law, Gap(1, At(20, 40), At(8, 60)));
        Assert.True(gap.Slow < CureIntegral.Over(law, Over(1, At(8, 60), At(8, 60))).Likely);
        Assert.True(gap.Fast > CureIntegral.Over(law, Over(1, At(20, 40), At(20, 40))).Likely);
    }

    // The readings before a gap stand for it in the mean, whatever comes after: the bounds of a coat that is ready do not move by it.
    [Fact]
    public void MeanClimate_OfAGap_IsTheClimateBeforeIt()
    {
        RateLaw law = Law(53e3, 0.7);
        MeanClimate open = MeanClimate.Of(CureIntegral.Over(law, Opened(Gap(2, At(20, 50), At(20, 50)), At(20, 50))));
        MeanClimate closed = MeanClimate.Of(CureIntegral.Over(law, Gap(2, At(20, 50), At(12, 70))));
        Assert.Equal(open.X, closed.X, 1e-15);
        Assert.Equal(open.Y, closed.Y, 1e-12);
        Assert.Equal(open.AirKelvins, closed.AirKelvins, 1e-9);
    }

    [Fact]
    public void Gap_TooShortForCure_CountsInFull()
    {
        ClimateSegment gap = Gap(0.25, At(20, 50), At(20, 50));
        gap = gap with { Unseen = gap.Unseen! with { IsGapForCure = false } };
        Assert.Equal(0.25, CureIntegral.Over(Law(53e3, 0.7), gap).Slow, 1e-9);
        Assert.True(CureIntegral.Over(Law(43e3, 0.2, Mechanism.Evaporation), gap).Slow < 0.2499);
    }

    private static readonly Gen<Exposure> Climate = Gen.Select(Gen.Double[8, 38], Gen.Double[15, 90], (c, pct) => At(c, pct));

    private static IEnumerable<Exposure> Wander(Random random, Exposure first, int minutes)
    {
        double kelvins = first.AirKelvins, dew = DewKelvins(first), floor = Math.Min(dew, Celsius.KelvinsAtZero - 20);
        double towards = (2 * random.NextDouble()) - 1, dewTowards = (2 * random.NextDouble()) - 1;
        yield return first;
        for (int i = 0; i < minutes; i++)
        {
            (towards, dewTowards) = random.Next(40) == 0 ? (Math.Sign(random.NextDouble() - 0.5), Math.Sign(random.NextDouble() - 0.5)) : (towards, dewTowards);
            kelvins = Math.Clamp(kelvins + (towards * 4 / 60), Celsius.KelvinsAtZero - 20, Celsius.KelvinsAtZero + 40);
            dew = Math.Clamp(dew + (dewTowards * 3 / 60), floor, Celsius.KelvinsAtZero + 40);
            if (dew > kelvins)
            {
                yield break; // a bay cannot be there; the reading before is the second one
            }

            yield return new Exposure(kelvins, SaturationPressure.OverWaterPa(dew), kelvins);
        }
    }

    private static double DewKelvins(Exposure exposure) => DewPoint.OfPressure(exposure.VapourPressurePa).Kelvins;

    private static bool IsFar(Exposure first, Exposure second, double hours) =>
        Math.Abs(second.AirKelvins - first.AirKelvins) > 2 * hours || Math.Abs(DewKelvins(second) - DewKelvins(first)) > hours;

    private static ClimateSegment Gap(double hours, Exposure start, Exposure end)
    {
        ClimateSegment segment = Over(hours, start, end);
        var air = new Bracket(segment.Start, start.AirKelvins, start.VapourPressurePa, segment.End, end.AirKelvins, end.VapourPressurePa);
        return segment with { Unseen = new Unseen([air], [], start, IsGapForEvaporation: true, IsGapForCure: true, IsAirLost: true, IsDark: true) };
    }

    private static ClimateSegment Opened(ClimateSegment gap, Exposure held) => gap with
    {
        AtStart = held,
        AtEnd = held,
        IsUnconfirmed = true,
        Unseen = gap.Unseen! with { Air = [gap.Unseen.Air[0] with { To = null, ToKelvins = held.AirKelvins, ToVapourPressurePa = held.VapourPressurePa }] },
    };
}
