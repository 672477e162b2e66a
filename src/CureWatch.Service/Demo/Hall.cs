namespace CureWatch.Service.Demo;

/// <summary>A small simulation of two bays that share their air, and of a car in one of them.</summary>
/// <remarks>
/// Air relaxes to the outdoors through walls and doors, to the bay beside it through the gap between them, and is pulled to the heating's
/// set point; vapour does the same and takes in what people let loose. A panel is a skin between the air and a soaked body. Left out: heat
/// of condensation, sun, and what the car gives back to the air. Source (law): Newton's law of cooling, explicit Euler steps.
/// Source (choice): every constant, those of panels near what steel of 0.8 mm, glass of 5 mm and a cast wheel have in still air.
/// </remarks>
internal sealed class Hall
{
    private const double WallsPerHour = 1 / 9.0, HeatingPerHour = 3, MostHeatingKPerHour = 9, DoorCoolsPart = 0.35;
    private const double LeaksPerHour = 0.25, BesidePerHour = 4;
    private const double SteelToAirPerHour = 10, SteelToBodyPerHour = 5.5;
    private const double GlassToAirPerHour = 2.9, GlassToBodyPerHour = 1.5;
    private const double WheelsToAirPerHour = 1.25, BodyToAirPerHour = 0.6;
    private const double Parked = HallPlan.ParkedCarC;
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(20);

    private HallState _before;
    private HallState _after;
    private TimeSpan _beforeAt;

    public Hall()
    {
        (double yardC, double yardPa) = Weather.At(TimeSpan.Zero);
        _before = new HallState(16.5, 16.5, 1000, 1000, 16.5, 16.5, 16.5, 16.5, yardC, yardPa);
        _after = After(_before, TimeSpan.Zero);
    }

    /// <summary>The state at a time since the start of the day; time only moves on.</summary>
    public HallState At(TimeSpan since)
    {
        while (since >= _beforeAt + Step)
        {
            _beforeAt += Step;
            _before = _after;
            _after = After(_before, _beforeAt);
        }

        return _before.Towards(_after, (since - _beforeAt) / Step);
    }

    private static HallState After(HallState now, TimeSpan since)
    {
        double hours = Step.TotalHours;
        TimeSpan then = since + Step;
        (double yardC, double yardPa) = Weather.At(then);
        double door1 = HallPlan.AirChangesPerHour(1, since), door2 = HallPlan.AirChangesPerHour(2, since);
        bool arrives = since < HallPlan.CarArrives && then >= HallPlan.CarArrives;
        return arrives
            ? Next() with { SteelC = Parked, GlassC = Parked, WheelsC = Parked, BodyC = Parked }
            : Next();

        HallState Next() => new(
            now.Air1C + (hours * AirKPerHour(now.Air1C, now.Air2C, door1)),
            now.Air2C + (hours * AirKPerHour(now.Air2C, now.Air1C, door2)),
            now.Vapour1Pa + (hours * VapourPaPerHour(now.Vapour1Pa, now.Vapour2Pa, door1, HallPlan.PascalsPerHour(1, since))),
            now.Vapour2Pa + (hours * VapourPaPerHour(now.Vapour2Pa, now.Vapour1Pa, door2, HallPlan.PascalsPerHour(2, since))),
            now.SteelC + (hours * SkinKPerHour(now.SteelC, SteelToAirPerHour, SteelToBodyPerHour)),
            now.GlassC + (hours * SkinKPerHour(now.GlassC, GlassToAirPerHour, GlassToBodyPerHour)),
            now.WheelsC + (hours * WheelsToAirPerHour * (now.Air1C - now.WheelsC)),
            now.BodyC + (hours * BodyToAirPerHour * (now.Air1C - now.BodyC)),
            yardC,
            yardPa);

        double AirKPerHour(double own, double beside, double door) =>
            ((WallsPerHour + (DoorCoolsPart * door)) * (now.YardC - own)) + (BesidePerHour * (beside - own))
            + Math.Clamp(HeatingPerHour * (HallPlan.SetC(since) - own), 0, MostHeatingKPerHour);

        double VapourPaPerHour(double own, double beside, double door, double source) =>
            ((LeaksPerHour + door) * (now.YardPa - own)) + (BesidePerHour * (beside - own)) + source;

        double SkinKPerHour(double own, double toAir, double toBody) => (toAir * (now.Air1C - own)) + (toBody * (now.BodyC - own));
    }
}
