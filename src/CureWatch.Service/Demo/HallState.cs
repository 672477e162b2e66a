using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Service.Demo;

/// <summary>The two bays, the car and the yard at an instant.</summary>
/// <param name="Air1C">Air of bay 1 [°C].</param>
/// <param name="Air2C">Air of bay 2 [°C].</param>
/// <param name="Vapour1Pa">Vapour pressure in bay 1 [Pa].</param>
/// <param name="Vapour2Pa">Vapour pressure in bay 2 [Pa].</param>
/// <param name="SteelC">The bonnet [°C].</param>
/// <param name="GlassC">The windscreen [°C].</param>
/// <param name="WheelsC">The wheels [°C].</param>
/// <param name="BodyC">The soaked body behind bonnet and windscreen [°C].</param>
/// <param name="YardC">Outdoors [°C].</param>
/// <param name="YardPa">Vapour pressure outdoors [Pa].</param>
internal sealed record HallState(
    double Air1C,
    double Air2C,
    double Vapour1Pa,
    double Vapour2Pa,
    double SteelC,
    double GlassC,
    double WheelsC,
    double BodyC,
    double YardC,
    double YardPa)
{
    public double TemperatureC(Measured of) => of switch
    {
        Measured.Air1 => Air1C,
        Measured.Air2 => Air2C,
        Measured.Steel => SteelC,
        Measured.Glass => GlassC,
        Measured.Wheels => WheelsC,
        _ => YardC,
    };

    public double? HumidityPct(Measured of) => of switch
    {
        Measured.Air1 => Pct(Vapour1Pa, Air1C),
        Measured.Air2 => Pct(Vapour2Pa, Air2C),
        Measured.Yard => Pct(YardPa, YardC),
        _ => null,
    };

    /// <summary>The state part of the way to another.</summary>
    public HallState Towards(HallState next, double share)
    {
        return new HallState(
            Mix(Air1C, next.Air1C),
            Mix(Air2C, next.Air2C),
            Mix(Vapour1Pa, next.Vapour1Pa),
            Mix(Vapour2Pa, next.Vapour2Pa),
            Mix(SteelC, next.SteelC),
            Mix(GlassC, next.GlassC),
            Mix(WheelsC, next.WheelsC),
            Mix(BodyC, next.BodyC),
            Mix(YardC, next.YardC),
            Mix(YardPa, next.YardPa));

        double Mix(double from, double to) => from + ((to - from) * share);
    }

    private static double Pct(double vapourPressurePa, double airC) =>
        Math.Min(100, 100 * vapourPressurePa / SaturationPressure.OverWaterPa(airC + Celsius.KelvinsAtZero));
}
