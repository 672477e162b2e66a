namespace CureWatch.Panels;

/// <summary>How fast a bay with its doors shut changes at most. Source (choice): common practice, no source.</summary>
public static class BayDrift
{
    /// <summary>Its temperatures, of the air as of panels that nothing else heats [K/h].</summary>
    public const double TemperatureKPerHour = 4;

    /// <summary>Its dew point [K/h].</summary>
    public const double DewPointKPerHour = 3;

    /// <summary>The share of both at which it goes on for hours while nothing else that is measured there moves much [1].</summary>
    public const double UnnoticedShare = 0.15;
}
