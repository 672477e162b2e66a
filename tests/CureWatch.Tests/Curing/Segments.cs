using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Curing;

/// <summary>Climates and laws for the tests of this room.</summary>
internal static class Segments
{
    public static readonly DateTimeOffset Noon = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

    public static RateLaw Law(double activationEnergyJmol, double exponent, Mechanism mechanism = Mechanism.Cure) =>
        new(mechanism, byDeficit: false, activationEnergyJmol, exponent, ReferenceClimate.Usual);

    public static Exposure At(double airC, double humidityPct, double? panelC = null)
    {
        double air = new Celsius(airC).Kelvins;
        return new Exposure(air, SaturationPressure.OverWaterPa(air) * humidityPct / 100, new Celsius(panelC ?? airC).Kelvins);
    }

    public static Exposure AtPressure(double airC, double vapourPressurePa) =>
        new(new Celsius(airC).Kelvins, vapourPressurePa, new Celsius(airC).Kelvins);

    public static ClimateSegment Over(double hours, Exposure start, Exposure end, double fromHour = 0) =>
        ClimateSegment.Plain(Noon + TimeSpan.FromHours(fromHour), Noon + TimeSpan.FromHours(fromHour + hours), start, end);
}
