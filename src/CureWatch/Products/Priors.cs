namespace CureWatch.Products;

/// <summary>What is known of a rate law before a sheet's rows are read.</summary>
/// <param name="EnergyJmol">Activation energy [J/mol].</param>
/// <param name="EnergyDeviationJmol">Its standard deviation [J/mol].</param>
/// <param name="Exponent">Humidity exponent [1].</param>
/// <param name="ExponentDeviation">Its standard deviation [1]; 0 where the exponent is known and not fitted.</param>
internal sealed record Priors(double EnergyJmol, double EnergyDeviationJmol, double Exponent, double ExponentDeviation)
{
    /// <summary>
    /// The film cures. Source (choice, from literature): acid hydrolysis of alkoxysilanes 36–40 kJ/mol (Donatti and Vollet, J. Sol-Gel Sci.
    /// Technol. 4 (1995) 99), isocyanate with alcohol 35–77 kJ/mol (Polymer 46 (2005) 15); the rate doubles in 10 K at about 50. An
    /// exponent of 1 is a reaction first-order in water, 0.5 a diffusion front.
    /// </summary>
    public static Priors Cure { get; } = new(50e3, 15e3, 0.6, 0.3);

    /// <summary>
    /// The carrier evaporates. Source (choice): heats of vaporisation of common solvents, 37–45 kJ/mol (from memory), and little care for
    /// moisture.
    /// </summary>
    public static Priors Evaporation { get; } = new(43e3, 10e3, 0.2, 0.2);

    /// <summary>Water evaporates into the deficit. Source (law): the flux follows the vapour-pressure difference (Dalton).</summary>
    public static Priors ByDeficit { get; } = new(43e3, 10e3, 1, 0);

    /// <summary>Where an activation energy may lie [J/mol]. Source (choice): wider than the usual 30–80 kJ/mol.</summary>
    public static Bound EnergyBound { get; } = new(20e3, 110e3);

    /// <summary>Where an exponent may lie [1]: moisture never slows these laws, nor far beyond first order. Source (choice).</summary>
    public static Bound ExponentBound { get; } = new(0, 1.5);

    /// <summary>Finds what is known of a clock.</summary>
    /// <param name="mechanism">The clock.</param>
    /// <param name="carrier">What leaves the film.</param>
    /// <returns>The priors.</returns>
    public static Priors Of(Mechanism mechanism, Carrier carrier) => (mechanism, carrier) switch
    {
        (Mechanism.Cure, _) => Cure,
        (Mechanism.Evaporation, Carrier.Water) => ByDeficit,
        _ => Evaporation,
    };

    /// <summary>The law before any row is read.</summary>
    /// <param name="mechanism">The clock.</param>
    /// <param name="reference">The sheet's reference climate.</param>
    /// <returns>The law with the means of these priors.</returns>
    public RateLaw Law(Mechanism mechanism, ReferenceClimate reference) =>
        new(mechanism, IsByDeficit, EnergyJmol, Exponent, reference) { Doubt = Doubt };

    /// <summary>How sure anybody is of such a law.</summary>
    public FitCovariance Doubt => new(0, EnergyDeviationJmol * EnergyDeviationJmol, ExponentDeviation * ExponentDeviation, 0, 0, 0);

    /// <summary>Whether drying is driven by the deficit, which fixes the exponent.</summary>
    public bool IsByDeficit => ExponentDeviation == 0;
}
