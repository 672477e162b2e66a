using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

public class BayClimateTests
{
    [Fact]
    public void Climate_WithoutAPanel_HasNoSpreadAndNoVerdict()
    {
        var climate = new BayClimate(new Celsius(20), new RelativeHumidity(50));
        Assert.Null(climate.SpreadKelvins);
        Assert.Null(climate.PanelHumidityPercent);
        Assert.Null(climate.Judge(3));
    }

    [Fact]
    public void Panel_AsWarmAsTheAir_FeelsTheAirsHumidity()
    {
        var climate = new BayClimate(new Celsius(20), new RelativeHumidity(50), new Celsius(20));
        Assert.Equal(50, climate.PanelHumidityPercent!.Value, 9);
        Assert.Equal(20 - climate.DewPoint.Degrees, climate.SpreadKelvins!.Value, 9);
    }

    [Fact]
    public void Verdict_FollowsTheSpreadAlone()
    {
        var air = new Celsius(20);
        var humidity = new RelativeHumidity(50);
        double dewPointC = DewPoint.Of(air, humidity).Degrees;
        Verdict? At(double spread) => new BayClimate(air, humidity, new Celsius(dewPointC + spread)).Judge(3);

        Assert.Equal(Verdict.Wet, At(-5));
        Assert.Equal(Verdict.Wet, At(0));
        Assert.Equal(Verdict.Marginal, At(0.001));
        Assert.Equal(Verdict.Marginal, At(2.999));
        Assert.Equal(Verdict.Dry, At(3.001));
    }

    [Fact]
    public void Panel_BetweenDewPointAndFrostPoint_IsWet()
    {
        // 20 °C at 20 %: dew point -3.62 °C, frost point -3.21 °C (IAPWS-95 by python3-iapws 1.5.2).
        var climate = new BayClimate(new Celsius(20), new RelativeHumidity(20), new Celsius(-3.4));
        Assert.Equal(Verdict.Wet, climate.Judge(3));
    }

    [Fact]
    public void Humidity_UnderOnePercent_IsRaisedAndTold()
    {
        var climate = new BayClimate(new Celsius(20), new RelativeHumidity(0.4));
        Assert.Equal(1, climate.Humidity.Percent);
        Assert.True(climate.HumidityRaised);
    }

    [Fact]
    public void Panel_OutsideTheRange_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(
        () => new BayClimate(new Celsius(20), new RelativeHumidity(50), new Celsius(101)));

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    public void WantedSpread_NotAboveZero_IsRefused(double kelvins) => Assert.Throws<ArgumentOutOfRangeException>(
        () => new BayClimate(new Celsius(20), new RelativeHumidity(50), new Celsius(20)).Judge(kelvins));
}
