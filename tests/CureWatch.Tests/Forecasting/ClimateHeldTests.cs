using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Units;

namespace CureWatch.Tests.Forecasting;

public class ClimateHeldTests
{
    private static readonly Exposure Cold = At(15, 55);

    // 1704.8 Pa at 15 °C and 2644.1 Pa at 22 °C over water (Sonntag 1990): 0.55 · 1704.8/2644.1 = 35.5 %.
    [Fact]
    public void Heated_KeepsItsMoisture_AndCuresAQuarterFasterNotTwoThirds()
    {
        Exposure heated = new ClimateHeld { LeastAirKelvins = 295.15 }.Of(Cold);

        Assert.Equal(Cold.VapourPressurePa, heated.VapourPressurePa, 1e-9);
        Assert.Equal(35.5, 100 * heated.VapourPressurePa / SaturationPressure.OverWaterPa(heated.AirKelvins), 0.1);

        RateLaw law = CoatLaws.Of(SheetFit.Of(TestShop.Paint())).KeepDry!.Law;
        Assert.Equal(1.26, Rate(law, heated) / Rate(law, Cold), 0.03);
        Assert.Equal(1.64, Rate(law, At(22, 55)) / Rate(law, Cold), 0.03);
    }

    [Fact]
    public void WarmerThanWanted_StaysAsItIs() => Assert.Equal(Cold, new ClimateHeld { LeastAirKelvins = 280 }.Of(Cold));

    [Fact]
    public void Dried_GetsThereInTime_AndNeverBeyond()
    {
        var dried = new ClimateHeld { MostHumidityPct = 40 };
        double before = Cold.VapourPressurePa;
        foreach (double hours in new[] { 0, 0.5, 2, 6, 48 })
        {
            double after = dried.Of((Cold.AirKelvins, Cold.VapourPressurePa), hours).VapourPressurePa;
            Assert.True(hours == 0 ? after == before : after < before);
            before = after;
        }

        Assert.Equal(40, 100 * before / SaturationPressure.OverWaterPa(Cold.AirKelvins), 0.001);
        Assert.Equal(At(15, 30).VapourPressurePa, dried.Of(At(15, 30)).VapourPressurePa, 1e-9);
    }

    [Fact]
    public void Aired_TakesOutdoorMoisture_AndGetsColder()
    {
        Exposure outdoors = At(2, 80);
        Exposure aired = new ClimateHeld { AiredWith = (outdoors.AirKelvins, outdoors.VapourPressurePa) }.Of(Cold);

        Assert.Equal(outdoors.VapourPressurePa, aired.VapourPressurePa, 1e-9);
        Assert.InRange(aired.PanelKelvins, outdoors.AirKelvins + 1, Cold.PanelKelvins - 1);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1.5)]
    [InlineData(100)]
    public void NoAir_HoldsMoreThanSaturation(double hours)
    {
        var moistened = new ClimateHeld { LeastHumidityPct = 90, AiredWith = (300, 3500) };
        (double kelvins, double pascals) = moistened.Of((285, 1300), hours);
        Assert.True(pascals <= SaturationPressure.OverWaterPa(kelvins));
    }

    private static double Rate(RateLaw law, Exposure exposure) => law.Likely(law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa));

    private static Exposure At(double airC, double humidityPct) =>
        new(airC + 273.15, Vapour.PressurePa(new Celsius(airC), new RelativeHumidity(humidityPct)), airC + 273.15);
}
