namespace CureWatch.Panels;

/// <summary>How much heat a surface holds, and how fast air brings it there.</summary>
/// <param name="LightJm2K">The least a surface of the kind holds [J/m²K], above 0.</param>
/// <param name="UsualJm2K">What it usually holds [J/m²K].</param>
/// <param name="HeavyJm2K">The most it holds [J/m²K].</param>
/// <remarks>
/// Equation: heat on an area = ρ·c·d, density [kg/m³] times specific heat [J/kgK] times thickness [m]. Source: the material values are of usual
/// handbooks; (choice) the thicknesses, common practice, no source: sheet 0.8 mm of steel or 1 mm of aluminium, castings 8 to 12 mm, 3 mm of
/// glass-fibre or plastic, 5 mm of glass, a tyre's side 8 mm; cloth and leather with the first centimetre of the foam under them, from memory.
/// The default is no surface at all.
/// </remarks>
public readonly record struct PanelHeat(double LightJm2K, double UsualJm2K, double HeavyJm2K)
{
    /// <summary>
    /// Heat that still air and radiation bring to an upright surface [W/m²K]. Source (law): ASHRAE Handbook of Fundamentals, surface conductances
    /// at emittance 0.9, from memory; ISO 6946 has 7.7.
    /// </summary>
    public const double StillAirWm2K = 8.29;

    /// <summary>A clear film of polyurethane [J/m²K]: 1200 kg/m³ · 1800 J/kgK · 0.2 mm, from memory.</summary>
    private const double FilmJm2K = 432;

    /// <summary>The heat a surface holds.</summary>
    /// <param name="material">What it is made of.</param>
    /// <param name="over">What lies under a film; where nobody said, the slowest of what body panels are usually made of.</param>
    /// <returns>The heat.</returns>
    public static PanelHeat Of(Material material, Material? over) => material switch
    {
        Material.Steel => One(7850, 470, 0.8),
        Material.Aluminium => One(2700, 900, 1.0),
        Material.Casting => new PanelHeat(OnArea(2700, 900, 8), OnArea(2700, 900, 10), OnArea(2700, 900, 12)),
        Material.Composite => One(1800, 1200, 3),
        Material.Glass => One(2500, 840, 5),
        Material.Plastic => One(905, 1900, 3),
        Material.Film => Of(over is null or Material.Film ? Material.Composite : over.Value, null).Under(FilmJm2K),
        Material.Fabric => One(500, 1300, 1).Under(OnArea(40, 1400, 10)),
        Material.Leather => One(900, 1500, 1.2).Under(OnArea(40, 1400, 10)),
        Material.Rubber => One(1100, 1900, 8),
        _ => throw new ArgumentOutOfRangeException(nameof(material), material, "Not a material."),
    };

    /// <summary>How long the surface takes to come within 1/e of the air, heated from one side.</summary>
    /// <returns>The time constant of the usual surface in still air.</returns>
    /// <remarks>
    /// Equation: τ = ρ·c·d/h. Source (law): lumped heat balance, valid for h·d/k below 0.1, which a 3 mm plastic passes by a little. A surface
    /// that air reaches from behind too takes half of it: one side is the slower of both.
    /// </remarks>
    public TimeSpan TimeConstant => Over(UsualJm2K);

    private static TimeSpan Over(double heatJm2K) => TimeSpan.FromSeconds(heatJm2K / StillAirWm2K);

    private static PanelHeat One(double density, double specificHeat, double millimetres)
    {
        double heat = OnArea(density, specificHeat, millimetres);
        return new PanelHeat(heat, heat, heat);
    }

    private static double OnArea(double density, double specificHeat, double millimetres) => density * specificHeat * millimetres / 1000;

    private PanelHeat Under(double moreJm2K) => new(LightJm2K + moreJm2K, UsualJm2K + moreJm2K, HeavyJm2K + moreJm2K);
}
