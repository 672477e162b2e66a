namespace CureWatch.Service.Settings;

/// <summary>What a usual sensor's data sheet promises, where nobody says better, as ± limits. Source (choice).</summary>
internal static class ProbeAccuracy
{
    /// <summary>Temperature of the air [K].</summary>
    public const double UsualAirK = 0.5;

    /// <summary>Relative humidity [% RH].</summary>
    public const double UsualHumidityPct = 3;

    /// <summary>Temperature of a panel [K]: a clip-on or infrared sensor is worse than an air sensor.</summary>
    public const double UsualPanelK = 1;

    /// <summary>A limit of this much says nothing any more [K].</summary>
    public const double MostK = 20;

    /// <summary>The same for humidity [% RH].</summary>
    public const double MostHumidityPct = 50;
}
