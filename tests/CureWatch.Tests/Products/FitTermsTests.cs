using CsCheck;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;
using static CureWatch.Tests.Products.Sheets;

namespace CureWatch.Tests.Products;

public class FitTermsTests
{
    /// <summary>Source: the test suite of an open plant-model library, E 40 kJ/mol, 26.85 against 25 °C, R 8.3145 (hence the tolerance).</summary>
    [Fact]
    public void X_OfAPublishedArrheniusFactor_GivesIt()
    {
        FitTerms terms = FitTerms.Of(new Celsius(26.85), new RelativeHumidity(50), Climate(25, 50), byDeficit: false);
        Assert.Equal(1.10462263, Math.Exp(-40e3 * terms.X), 6);
    }

    /// <summary>Source: the law evaluated by a separate program in Python, E 53 kJ/mol, m 0.7, reference 20 °C and 50 %.</summary>
    [Theory]
    [InlineData(30, 50, 2.048871329433571)]
    [InlineData(20, 30, 0.6993681904144293)]
    [InlineData(5, 60, 0.35168726267804834)]
    [InlineData(35, 70, 3.6473694860817165)]
    [InlineData(15, 95, 0.9941427821724668)]
    public void Terms_OfAClimate_GiveTheRate(double celsius, double percent, double rate)
    {
        FitTerms terms = FitTerms.Of(new Celsius(celsius), new RelativeHumidity(percent), ReferenceClimate.Usual, byDeficit: false);
        Assert.Equal(rate, Math.Exp((0.7 * terms.Y) - (53e3 * terms.X)), 12);
    }

    /// <summary>Source: saturation pressures of IAPWS-95 by python3-iapws 1.5.2, trusted to 0.01 %.</summary>
    [Theory]
    [InlineData(25, 40, 3169.929)]
    [InlineData(10, 70, 1228.199)]
    [InlineData(40, 30, 7384.938)]
    public void Y_ByDeficit_IsTheShareOfTheReferenceDeficit(double celsius, double percent, double saturationPa)
    {
        FitTerms terms = FitTerms.Of(new Celsius(celsius), new RelativeHumidity(percent), ReferenceClimate.Usual, byDeficit: true);
        Assert.Equal(Math.Log(saturationPa * (1 - (percent / 100)) / (2339.318 * 0.5)), terms.Y, 3e-4);
    }

    [Theory]
    [InlineData(false, 2, 0.05 / 0.5)]
    [InlineData(false, 99, 0.85 / 0.5)]
    [InlineData(true, 100, 0.05)]
    public void Y_BeyondTheClamps_StaysAtThem(bool byDeficit, double percent, double speedUp)
    {
        FitTerms terms = FitTerms.Of(new Celsius(20), new RelativeHumidity(percent), ReferenceClimate.Usual, byDeficit);
        Assert.Equal(Math.Log(speedUp), terms.Y, 12);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Terms_AtTheReference_AreZero(bool byDeficit)
    {
        ReferenceClimate reference = Climate(23, 60);
        Assert.Equal(default, FitTerms.Of(reference.Temperature, reference.Humidity, reference, byDeficit));
    }

    /// <summary>A fit and the law it gives must mean the same by a climate.</summary>
    [Fact]
    public void Terms_OfAnyClimate_AreThoseOfTheLaw() =>
        Gen.Select(Gen.Double[-5, 45], Gen.Double[1, 99], Gen.Double[30, 70], Gen.Bool).Sample((celsius, percent, atReference, byDeficit) =>
        {
            ReferenceClimate reference = Climate(23, atReference);
            FitTerms terms = FitTerms.Of(new Celsius(celsius), new RelativeHumidity(percent), reference, byDeficit);
            double kelvins = new Celsius(celsius).Kelvins;
            RateTerms law = new RateLaw(Mechanism.Evaporation, byDeficit, 50e3, 1, reference)
                .Terms(kelvins, percent / 100 * SaturationPressure.OverWaterPa(kelvins));

            Assert.Equal(law.X, terms.X, 1e-18);
            Assert.Equal(law.Y, terms.Y, 1e-9);
        });
}
