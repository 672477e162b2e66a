using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Panels;

public class PanelHeatTests
{
    // Heat on an area and time constant at 8.29 W/m²K from one side: worked out from handbook values, density times specific heat times thickness.
    [Theory]
    [InlineData(Material.Steel, 2952, 5.9)]
    [InlineData(Material.Aluminium, 2430, 4.9)]
    [InlineData(Material.Composite, 6480, 13.0)]
    [InlineData(Material.Glass, 10500, 21.1)]
    [InlineData(Material.Plastic, 5160, 10.4)]
    [InlineData(Material.Casting, 24300, 48.9)]
    public void TimeConstant_OfAMaterial_IsThatOfItsUsualThickness(Material material, double heatJm2K, double minutes)
    {
        var heat = PanelHeat.Of(material, null);
        Assert.Equal(heatJm2K, heat.UsualJm2K, 3.0);
        Assert.Equal(minutes, heat.TimeConstant.TotalMinutes, 0.06);
    }

    // Castings of 8 to 12 mm: common practice, no source.
    [Fact]
    public void Casting_IsFrom39To59Minutes()
    {
        var heat = PanelHeat.Of(Material.Casting, null);
        Assert.Equal(39, heat.LightJm2K / PanelHeat.StillAirWm2K / 60, 0.5);
        Assert.Equal(59, heat.HeavyJm2K / PanelHeat.StillAirWm2K / 60, 0.5);
    }

    [Fact]
    public void Film_IsALittleSlowerThanWhatLiesUnderIt() => Assert.InRange(
        PanelHeat.Of(Material.Film, Material.Steel).TimeConstant / PanelHeat.Of(Material.Steel, null).TimeConstant, 1.05, 1.25);

    // Cengel, Heat and Mass Transfer, example 4-1: a junction of 1 mm, ρ 8500, c 320, h 210: b = h·A/(ρ·V·c) = 0.462 /s, 99 % in 10 s.
    [Fact]
    public void Sphere_OfCengel_Takes10Seconds()
    {
        var timeConstant = TimeSpan.FromSeconds(8500 * 320 * (1e-3 / 6) / 210);
        Assert.Equal(0.462, 1 / timeConstant.TotalSeconds, 0.0015); // the book rounds the length to 1.67e-4 m
        Assert.Equal(10, OneNode.TimeTo(100, 100 - 99, timeConstant)!.Value.TotalSeconds, 0.1);
    }

    // Incropera, Fundamentals of Heat and Mass Transfer, example 5.1: h 400, c 400, ρ 8500, τ 1 s: 0.706 mm; from 25 to 199 °C in gas of 200 °C in 5.2 s. From memory.
    [Fact]
    public void Junction_OfIncropera_Takes5Seconds()
    {
        Assert.Equal(7.06e-4, 6 * 400 * 1.0 / (8500 * 400), 1e-6);
        Assert.Equal(5.2, OneNode.TimeTo(200 - 25, 200 - 199, TimeSpan.FromSeconds(1))!.Value.TotalSeconds, 0.05);
    }

    // A panel of −5 °C in air of 20 °C, to the dew point + 3 K, in time constants: worked out by hand for this project from Sonntag's dew points.
    [Theory]
    [InlineData(30, 0.50)]
    [InlineData(40, 0.82)]
    [InlineData(50, 1.17)]
    [InlineData(60, 1.61)]
    [InlineData(65, 1.89)]
    [InlineData(70, 2.25)]
    [InlineData(75, 2.77)]
    [InlineData(80, 3.81)]
    public void TimeToDryEnough_InTimeConstants(double humidityPct, double expected)
    {
        double target = DewPoint.Of(new Celsius(20), new RelativeHumidity(humidityPct)).Degrees + 3;
        Assert.Equal(expected, OneNode.TimeTo(20 + 5, 20 - target, TimeSpan.FromHours(1))!.Value.TotalHours, 0.011);
    }

    [Fact]
    public void TimeToDryEnough_InAirOfTheDewPointPlusThreeKelvins_IsNever() => Assert.Null(OneNode.TimeTo(20 + 5, 20 - 20, TimeSpan.FromHours(1)));

    // Two readings tell a time constant: from −5 to 5 °C in 4 min in air of 20 °C is 7.83 min.
    [Fact]
    public void TimeConstant_OfTwoReadings() =>
        Assert.Equal(7.83, OneNode.TimeConstant(25, 15, TimeSpan.FromMinutes(4))!.Value.TotalMinutes, 0.005);

    // Steel of 0.8 mm under a lamp, h 12, from 20 °C: absorbed W/m² → minutes to 60 °C and final temperature.
    [Theory]
    [InlineData(600, 6.6, 70)]
    [InlineData(1000, 2.7, 103)]
    [InlineData(2000, 1.1, 187)]
    public void Steel_UnderALamp(double absorbedWm2, double minutesTo60, double finalC)
    {
        double final = 20 + (absorbedWm2 / 12);
        Assert.Equal(finalC, final, 0.5);
        var timeConstant = TimeSpan.FromSeconds(PanelHeat.Of(Material.Steel, null).UsualJm2K / 12);
        Assert.Equal(minutesTo60, OneNode.TimeTo(final - 20, final - 60, timeConstant)!.Value.TotalMinutes, 0.06);
    }

    // Any way to cut a straight course up gives the same.
    [Fact]
    public void OneNode_InPieces_IsTheSameAsWhole()
    {
        TimeSpan tau = TimeSpan.FromMinutes(7), whole = TimeSpan.FromMinutes(10);
        double kelvins = 270;
        for (int i = 0; i < 10; i++)
        {
            kelvins = OneNode.After(kelvins, 280 + i, 281 + i, whole / 10, tau);
        }

        Assert.Equal(OneNode.After(270, 280, 290, whole, tau), kelvins, 1e-9);
    }
}
