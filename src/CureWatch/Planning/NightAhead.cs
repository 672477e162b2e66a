namespace CureWatch.Planning;

/// <summary>What the hours to come are expected to bring a surface.</summary>
/// <param name="ColdestC">The coldest it likely gets [°C].</param>
/// <param name="ColdestAt">When that likely is.</param>
/// <param name="LeastSpreadK">The least it likely is above condensation [K].</param>
/// <param name="LeastSpreadAt">When that likely is.</param>
/// <param name="WetChance">How likely water condenses on it [1].</param>
/// <param name="WetFrom">Where it does, from when on, likely; null where it next to never does.</param>
public sealed record NightAhead(
    double ColdestC, DateTimeOffset ColdestAt, double LeastSpreadK, DateTimeOffset LeastSpreadAt, double WetChance, DateTimeOffset? WetFrom)
{
    /// <summary>A chance of water from which people are told [1]. Source (choice): tried on simulated nights, see DEVELOPERS.md.</summary>
    public const double WorthAWarning = 0.12;
}
