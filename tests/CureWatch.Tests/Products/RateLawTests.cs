using CsCheck;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Tests.Curing;
using CureWatch.Units;

namespace CureWatch.Tests.Products;

public class RateLawTests
{
    // Evaluated outside the project from the equation in RateLaw's comment, with E 53 kJ/mol and m 0.7.
    [Theory]
    [InlineData(20, 20, 50, 1.0)]
    [InlineData(10, 20, 50, 0.672660692786964)]
    [InlineData(30, 30, 50, 2.048871329433571)]
    [InlineData(20, 20, 30, 0.6993681904144293)]
    [InlineData(20, 20, 80, 1.3895813857757493)]
    [InlineData(5, 5, 60, 0.35168726267804834)]
    [InlineData(35, 35, 70, 3.6473694860817165)]
    [InlineData(60, 20, 50, 3.0358537748723915)]
    [InlineData(15, 15, 95, 0.9941427821724668)]
    [InlineData(25, 25, 5, 0.2873223474910756)]
    public void Rate_AtAClimate_IsTheEquation(double panelC, double airC, double humidityPct, double expected) =>
        Assert.Equal(expected, Likely(Segments.Law(53e3, 0.7), Segments.At(airC, humidityPct, panelC)), 1e-9);

    // ASTM C1074 equivalent-age factors, Q = E/R = 5000 K, specimen reference 20 °C (the default Q from memory).
    [Theory]
    [InlineData(0, 0.2864555513091273)]
    [InlineData(5, 0.3982142530049501)]
    [InlineData(10, 0.5471687043862401)]
    [InlineData(15, 0.7435905774623941)]
    [InlineData(25, 1.3315223696242706)]
    [InlineData(30, 1.7562770416563007)]
    [InlineData(35, 2.2957972816980936)]
    [InlineData(40, 2.9754804501686904)]
    public void Rate_WithoutHumidity_IsTheEquivalentAgeFactorOfAstmC1074(double c, double factor)
    {
        // C1074 takes 273 for 273.15: the factor at c there is ours at a climate 0.15 K lower on both sides.
        var reference = new ReferenceClimate(new Celsius(20 - 0.15), new RelativeHumidity(50));
        var law = new RateLaw(Mechanism.Cure, false, 5000 * RateLaw.GasConstant, 0, reference);
        Assert.Equal(factor, Likely(law, Segments.At(c - 0.15, 50)), 1e-9);
    }

    // EN 1992-1-1:2004, equation B.10: exp(13.65 − 4000/(273 + t)); its constant 13.65 is 4000/293.04.
    [Theory]
    [InlineData(0, 0.36713903819174526)]
    [InlineData(10, 0.6161433580764767)]
    [InlineData(20, 0.9981246276066766)]
    [InlineData(30, 1.56624317235313)]
    [InlineData(40, 2.3879787201842984)]
    public void Rate_WithoutHumidity_IsTheTemperatureFactorOfEn1992(double c, double factor)
    {
        var reference = new ReferenceClimate(Celsius.FromKelvins(4000 / 13.65), new RelativeHumidity(50));
        var law = new RateLaw(Mechanism.Cure, false, 4000 * RateLaw.GasConstant, 0, reference);
        Assert.Equal(factor, Likely(law, Segments.At(c - 0.15, 50)), 1e-9);
    }

    // From the test suite of an open plant-model library: Ea 40 kJ/mol, R 8.3145, 26.85 against 25 °C.
    [Fact]
    public void Rate_WithoutHumidity_IsAnArrheniusFactorTestedElsewhere()
    {
        var reference = new ReferenceClimate(new Celsius(25), new RelativeHumidity(50));
        var law = new RateLaw(Mechanism.Cure, false, 40e3 * RateLaw.GasConstant / 8.3145, 0, reference);
        Assert.Equal(1.10462263, Likely(law, Segments.At(26.85, 50)), 1e-7);
    }

    [Fact]
    public void WaterborneProduct_InMoistAir_DriesSlower()
    {
        var law = new RateLaw(Mechanism.Evaporation, byDeficit: true, 43e3, 1, ReferenceClimate.Usual);
        Assert.Equal(1, Likely(law, Segments.At(20, 50)), 1e-12);
        Gen.Select(Gen.Double[5, 35], Gen.Double[5, 95], Gen.Double[0.5, 5]).Sample((c, pct, more) =>
            Assert.True(Likely(law, Segments.At(c, Math.Min(100, pct + more))) <= Likely(law, Segments.At(c, pct))));
        Assert.Equal(0.4, Likely(law, Segments.At(20, 80)), 1e-9);
    }

    [Fact]
    public void Slopes_AreTheDerivativesOfTheRate() => Gen.Select(Gen.Double[0, 40], Gen.Double[15, 80], Gen.Bool).Sample((c, pct, byDeficit) =>
    {
        var law = new RateLaw(Mechanism.Cure, byDeficit, 53e3, 0.7, ReferenceClimate.Usual);
        Exposure at = Segments.At(c, pct);
        (double perKelvin, double perLnVapour) = law.Slopes(at.PanelKelvins, at.VapourPressurePa);
        Assert.Equal(Slope(h => LnRate(law, at.PanelKelvins + h, at.VapourPressurePa)), perKelvin, 1e-5);
        Assert.Equal(Slope(h => LnRate(law, at.PanelKelvins, at.VapourPressurePa * Math.Exp(h))), perLnVapour, 1e-5);

        static double Slope(Func<double, double> f) => (f(1e-4) - f(-1e-4)) / 2e-4;
    });

    [Fact]
    public void VapourPressure_OfAHumidityTerm_GivesTheTermBack() => Gen.Select(Gen.Double[0, 40], Gen.Double[15, 80], Gen.Bool).Sample((c, pct, byDeficit) =>
    {
        var law = new RateLaw(Mechanism.Cure, byDeficit, 53e3, 0.7, ReferenceClimate.Usual);
        Exposure at = Segments.At(c, pct);
        double y = law.Terms(at.PanelKelvins, at.VapourPressurePa).Y;
        Assert.Equal(at.VapourPressurePa, law.VapourPressurePaAt(at.PanelKelvins, y), 1e-6 * SaturationPressure.OverWaterPa(at.PanelKelvins));
    });

    private static double Likely(RateLaw law, Exposure at) => law.Likely(law.Terms(at.PanelKelvins, at.VapourPressurePa));

    private static double LnRate(RateLaw law, double kelvins, double pa) => Math.Log(law.Likely(law.Terms(kelvins, pa)));
}
