using CsCheck;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using static CureWatch.Tests.Curing.Segments;

namespace CureWatch.Tests.Curing;

public class CureIntegralTests
{
    // Own fine-step integration in another language (8th-order quadrature, 1e-12), no clamp in the way: °C, Pa, hours.
    [Theory]
    [InlineData(10, 30, 700, 700, 0.7071980568061768)]
    [InlineData(15, 25, 900, 1300, 0.9662130194628917)]
    [InlineData(18, 22, 1000, 1100, 0.9282992715406677)]
    [InlineData(5, 40, 700, 700, 0.7828315043849041)]
    public void Progress_OverASlope_EqualsAFineStepIntegration(double startC, double endC, double startPa, double endPa, double expected)
    {
        Credit credit = CureIntegral.Over(Law(53e3, 0.7), Over(1, AtPressure(startC, startPa), AtPressure(endC, endPa)));
        Assert.Equal(expected, credit.Likely, 2e-6 * expected);
    }

    // Closed form with the exponential integral E1 for an Arrhenius law over a linear rise, 50 kJ/mol, 10 to 30 °C in an hour.
    [Fact]
    public void Progress_WithoutHumidity_EqualsTheClosedForm()
    {
        Credit credit = CureIntegral.Over(Law(50e3, 0), Over(1, AtPressure(10, 700), AtPressure(30, 700)));
        Assert.Equal(1.0746538877603595, credit.Likely, 1e-6);
    }

    // A day of readings, integrated the same way outside the project: temperature and vapour pressure linear between readings.
    [Fact]
    public void Progress_AlongADay_EqualsAFineStepIntegration()
    {
        (double Hour, double C, double Pct, double Theta)[] day =
        [
            (0, 8, 75, 0), (0.5, 12, 62, 0.28851789772219294), (1, 16, 52, 0.635851776947076), (2, 19.5, 46, 1.4691362872423177),
            (4, 21, 43, 3.346373313908871), (8, 19, 48, 7.086973066325729), (12, 15, 58, 10.406317997405232),
            (18, 10, 72, 14.470438341551842), (24, 9, 74, 17.957334930993984),
        ];
        double sum = 0;
        for (int i = 1; i < day.Length; i++)
        {
            Exposure start = At(day[i - 1].C, day[i - 1].Pct);
            sum += CureIntegral.Over(Law(53e3, 0.7), Over(day[i].Hour - day[i - 1].Hour, start, At(day[i].C, day[i].Pct))).Likely;
            Assert.Equal(day[i].Theta, sum, 5e-6 * day[i].Theta);
        }
    }

    // Nurse–Saul maturity with datum −11 °C: 28 d at 15 °C are 728 °C·d, 28 d at 18 °C 19488 °C·h (textbook worked examples; Neville),
    // and 7 d of 12 h at 20 and 12 h at 10 °C 4368 °C·h (Shetty, Concrete Technology; from memory). A law without E and m earns an hour an
    // hour, so its air-temperature integral is that sum.
    [Fact]
    public void TemperatureIntegral_OfALawThatIgnoresClimate_IsTheNurseSaulSum()
    {
        Assert.Equal(728 * 24, NurseSaul((28 * 24, 15)), 1e-6);
        Assert.Equal(19488, NurseSaul((28 * 24, 18)), 1e-6);
        Assert.Equal(4368, NurseSaul([.. Enumerable.Repeat<(double, double)[]>([(12, 20), (12, 10)], 7).SelectMany(d => d)]), 1e-6);

        static double NurseSaul(params (double Hours, double C)[] stretches)
        {
            Credit sum = default;
            foreach ((double hours, double c) in stretches)
            {
                sum += CureIntegral.Over(Law(0, 0), Over(hours, At(c, 50), At(c, 50)));
            }

            return sum.WeightedAirKelvins - (sum.Likely * (273.15 - 11));
        }
    }

    [Fact]
    public void Progress_AcrossAClamp_IsSplitThere()
    {
        // From 70 to 99 % at 20 °C in an hour: likely rises to the clamp at 85 % and stays; slow stops there; fast goes on rising.
        RateLaw law = Law(0, 1);
        Credit credit = CureIntegral.Over(law, Over(1, At(20, 70), At(20, 99)));
        double below = 15.0 / 29;
        Assert.Equal((below * (1.4 + 1.7) / 2) + ((1 - below) * 1.7), credit.Likely, 1e-9);
        Assert.Equal(below * (1.4 + 1.7) / 2, credit.Slow, 1e-9);
        Assert.Equal((1.4 + 1.98) / 2, credit.Fast, 1e-9);
    }

    [Fact]
    public void Progress_InVeryDryAir_EarnsTheSlowBoundNothing()
    {
        Credit credit = CureIntegral.Over(Law(50e3, 0.6), Over(1, At(20, 9), At(20, 9)));
        Assert.Equal(0, credit.Slow);
        Assert.True(credit.Likely > 0);
    }

    [Fact]
    public void Progress_SplitOnAStraightLine_IsTheSame() => Gen.Select(Climate, Climate, Gen.Double[0.01, 0.99], Gen.Double[0.05, 12]).Sample(
        (start, end, share, hours) =>
        {
            ClimateSegment whole = Over(hours, start, end);
            DateTimeOffset middle = whole.Start + ((whole.End - whole.Start) * share);
            RateLaw law = Law(53e3, 0.7);
            Credit split = CureIntegral.Over(law, whole.Between(whole.Start, middle)) + CureIntegral.Over(law, whole.Between(middle, whole.End));
            Credit joined = CureIntegral.Over(law, whole);
            Assert.Equal(joined.Likely, split.Likely, 1e-9 * joined.Likely);
            Assert.Equal(joined.Slow, split.Slow, 1e-9 * joined.Likely);
            Assert.Equal(joined.Fast, split.Fast, 1e-9 * joined.Fast);
        });

    [Fact]
    public void Progress_NeverFalls_AndItsBoundsAreOrdered() => Gen.Select(Climate, Climate, Gen.Double[0.001, 12]).Sample((start, end, hours) =>
    {
        foreach (RateLaw law in new[] { Law(53e3, 0.7), new RateLaw(Mechanism.Evaporation, true, 43e3, 1, ReferenceClimate.Usual) })
        {
            Credit credit = CureIntegral.Over(law, Over(hours, start, end));
            Assert.True(credit.Slow >= 0 && credit.Slow <= credit.Likely && credit.Likely > 0 && credit.Likely <= credit.Fast);
        }
    });

    [Fact]
    public void ReachedAt_FindsWhereProgressIsThatFar() => Gen.Select(Climate, Climate, Gen.Double[0.05, 0.95]).Sample((start, end, share) =>
    {
        RateLaw law = Law(53e3, 0.7);
        ClimateSegment segment = Over(2, start, end);
        double target = CureIntegral.Over(law, segment).Likely * share;
        DateTimeOffset at = CureIntegral.ReachedAt(law, segment, target, Pace.Likely);
        Assert.Equal(target, CureIntegral.Over(law, segment.Between(segment.Start, at)).Likely, 1e-5 * target);
    });

    // What the slow bound earns, it has earned where the air becomes too dry for it: from there on next to nothing lies between what is asked and what is there.
    [Fact]
    public void ReachedAt_OfAllThatIsEarned_IsWhereItStops()
    {
        ClimateSegment drying = Over(8, At(20, 60, 20), At(20, 1, 20));
        double target = (1 - 1e-12) * CureIntegral.Over(Law(53e3, 0.7), drying).Slow;
        DateTimeOffset at = CureIntegral.ReachedAt(Law(53e3, 0.7), drying, target, Pace.Slow);
        Assert.InRange(at, drying.Start.AddHours(1), drying.End.AddHours(-1));
        Assert.Equal(target, CureIntegral.Over(Law(53e3, 0.7), drying.Between(drying.Start, at)).Slow, 1e-9 * target);
        Assert.True(CureIntegral.Over(Law(53e3, 0.7), drying.Between(drying.Start, at.AddSeconds(-1))).Slow < target);
    }

    private static readonly Gen<Exposure> Climate =
        Gen.Select(Gen.Double[-5, 40], Gen.Double[3, 100], Gen.Double[-8, 8], (c, pct, panel) => At(c, pct, c + panel));
}
