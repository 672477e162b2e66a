using CsCheck;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

public class DewPointUncertaintyTests
{
    // Worked out beforehand by a separate program from Sonntag's slopes, with 0.3 K, 2 and 3 % RH and 0.5 K as 1 sigma; the
    // property below checks a and b without those slopes. Rounded to the digits shown.
    [Theory]
    [InlineData(20, 20, .827, .668, 1.36, 2.02, 1.45, 2.08)]
    [InlineData(20, 50, .919, .297, .65, .93, .82, 1.06)]
    [InlineData(20, 70, .957, .221, .53, .72, .73, .88)]
    [InlineData(20, 85, .980, .186, .47, .63, .69, .81)]
    [InlineData(30, 80, .972, .212, .51, .70, .72, .86)]
    [InlineData(10, 50, .923, .275, .62, .87, .79, 1.00)]
    public void Uncertainty_IsThatOfTheWorkedTable(
        double airC, double humidityPct, double a, double b, double dewTwo, double dewThree, double spreadTwo, double spreadThree)
    {
        DewPointUncertainty two = new(new Celsius(airC), new RelativeHumidity(humidityPct), 0.3, 2);
        DewPointUncertainty three = new(new Celsius(airC), new RelativeHumidity(humidityPct), 0.3, 3);
        Assert.Equal(a, two.PerAirKelvin, 0.0006);
        Assert.Equal(b, two.PerHumidityPercent, 0.0006);
        Assert.Equal(dewTwo, two.DewPointKelvins, 0.006);
        Assert.Equal(dewThree, three.DewPointKelvins, 0.006);
        Assert.Equal(spreadTwo, two.OfSpreadWithPanelProbe(0.5), 0.006);
        Assert.Equal(spreadThree, three.OfSpreadWithPanelProbe(0.5), 0.006);
    }

    [Fact]
    public void Sensitivities_AreTheDerivativesOfTheDewPoint() => Gen.Select(Gen.Double[-20, 60], Gen.Double[5, 95]).Sample((t, rh) =>
    {
        const double Step = 0.001;
        var uncertainty = new DewPointUncertainty(new Celsius(t), new RelativeHumidity(rh), 0.3, 2);
        double a = (DewPointC(t + Step, rh) - DewPointC(t - Step, rh)) / (2 * Step);
        double b = (DewPointC(t, rh + Step) - DewPointC(t, rh - Step)) / (2 * Step);
        return Math.Abs(a - uncertainty.PerAirKelvin) < 1e-5 && Math.Abs(b - uncertainty.PerHumidityPercent) < 1e-5;
    });

    [Fact]
    public void PanelWithoutAProbe_CancelsPartOfTheAirsError()
    {
        var uncertainty = new DewPointUncertainty(new Celsius(20), new RelativeHumidity(50), 0.3, 2);
        double expected = Math.Sqrt(Math.Pow((1 - .919) * 0.3, 2) + Math.Pow(.297 * 2, 2) + 1);
        Assert.Equal(expected, uncertainty.OfSpreadWithoutPanelProbe(1), 0.001);
        Assert.Throws<ArgumentOutOfRangeException>(() => uncertainty.OfSpreadWithoutPanelProbe(0.9));
    }

    [Fact]
    public void Limit_CountsAsItsRootThird() => Assert.Equal(0.3 / 1.7320508, DewPointUncertainty.StandardOfLimit(0.3), 1e-8);

    // Standard normal distribution, NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1 (from memory), and 1.6449 for 5 %.
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 0.158655)]
    [InlineData(1.644854, 0.05)]
    [InlineData(2, 0.022750)]
    [InlineData(3, 0.001350)]
    [InlineData(-1, 0.841345)]
    [InlineData(20, 0)]
    [InlineData(-20, 1)]
    public void ChanceOfCondensing_IsTheNormalTail(double spreadInSigmas, double chance) =>
        Assert.Equal(chance, DewPointUncertainty.ChanceOfSpreadBelow(spreadInSigmas * 0.8, 0.8), 1e-6);

    [Fact]
    public void Chance_OfAnyLimit_CountsFromThatLimit() => Assert.Equal(
        DewPointUncertainty.ChanceOfSpreadBelow(1, 0.8), DewPointUncertainty.ChanceOfSpreadBelow(4, 0.8, limitKelvins: 3), 12);

    [Theory]
    [InlineData(1, 0, 0)]
    [InlineData(1, double.NaN, 0)]
    [InlineData(double.NaN, 1, 0)]
    [InlineData(1, 1, double.NaN)]
    public void Chance_OfNoNumber_IsRefused(double spread, double standard, double limit) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DewPointUncertainty.ChanceOfSpreadBelow(spread, standard, limit));

    [Theory]
    [InlineData(-0.1, 2)]
    [InlineData(0.3, double.NaN)]
    public void Uncertainty_BelowZeroOrNoNumber_IsRefused(double airKelvins, double humidityPercent) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => new DewPointUncertainty(new Celsius(20), new RelativeHumidity(50), airKelvins, humidityPercent));

    private static double DewPointC(double airC, double humidityPct) =>
        DewPoint.Of(new Celsius(airC), new RelativeHumidity(humidityPct)).Degrees;
}
