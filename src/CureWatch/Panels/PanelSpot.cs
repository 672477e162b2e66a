namespace CureWatch.Panels;

/// <summary>A surface's temperature, read by hand.</summary>
/// <param name="At">When.</param>
/// <param name="Kelvins">What was read [K].</param>
/// <param name="IsSuspect">
/// Whether it may show the room instead of the surface: what is bright mirrors its surroundings, and a lamp nearby still more.
/// </param>
public sealed record PanelSpot(DateTimeOffset At, double Kelvins, bool IsSuspect)
{
    /// <summary>The coldest a car is read to be [°C]. Source (choice).</summary>
    public const double ColdestC = -60;

    /// <summary>The hottest a surface is read to be [°C]. Source (choice): beyond any lamp's.</summary>
    public const double HottestC = 200;

    /// <summary>Standard uncertainty of a spot [K]. Source: common practice, no source.</summary>
    public const double StandardK = 1;

    /// <summary>Standard uncertainty of a spot that is suspect [K]: 1 to 2 K more. Source: common practice, no source.</summary>
    public const double SuspectStandardK = 2;

    /// <summary>Whether a lamp heated it since the spot before: then the two do not tell how fast it follows the air.</summary>
    public bool WasLit { get; init; }

    /// <summary>Its standard uncertainty [K].</summary>
    public double UncertaintyK => IsSuspect ? SuspectStandardK : StandardK;

    /// <summary>Whether a spot on a material is suspect by itself.</summary>
    /// <param name="material">The material.</param>
    /// <returns>True for metal, glass, lacquer and film: nobody says how bright they are. False for what is dull.</returns>
    public static bool IsSuspectOn(Material material) =>
        material is not (Material.Plastic or Material.Fabric or Material.Leather or Material.Rubber);
}
