namespace CureWatch.Forecasting;

/// <summary>What a bay with a heating is held at when nobody is there: its coldest hour of the nights that are known.</summary>
/// <remarks>
/// A course through the day is made of waves and knows no thermostat: by it every such bay would sink below what it is held at. Source (choice): a kelvin less for one
/// night, half of one for two and so on; what lies below that counts by three tenths, for a colder night may come than any that is known. Once the air is colder
/// by half a kelvin nothing holds it any more. The default holds nothing.
/// </remarks>
/// <param name="Kelvins">The temperature [K]; null where nothing holds the bay, or no night of it is known.</param>
internal readonly record struct HeatedFloor(double? Kelvins)
{
    private const double OneNightsDoubtK = 1;
    private const double ShareBelow = 0.3;
    private const double GivesWayK = 0.5;
    private const int HoursPerDay = 24;

    /// <summary>Nights that are known end so long before the present [h].</summary>
    private const int HoursSince = 12;

    /// <summary>Fewest hours that have a night among them.</summary>
    private const int FewestHours = 18;

    public static HeatedFloor Of(ClimateForecaster known, AirNow now)
    {
        long until = HourValue.HourOf(now.At) - HoursSince;
        double[] past = [.. known.Kelvins.Past.TakeWhile(h => h.Hour < until).Select(h => h.Value)];
        if (!now.IsHeatedAtNight || known.Kelvins.Past.Length < FewestHours || past.Length == 0)
        {
            return default;
        }

        double held = past.Min() - (OneNightsDoubtK * HoursPerDay / known.Kelvins.Past.Length);
        return now.AirKelvins < held - GivesWayK ? default : new HeatedFloor(held);
    }

    public double Holds(double kelvins) => Kelvins is { } held && kelvins < held ? held + (ShareBelow * (kelvins - held)) : kelvins;
}
