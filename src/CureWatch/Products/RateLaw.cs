using CureWatch.Psychrometrics;

namespace CureWatch.Products;

/// <summary>How fast one clock of a coat runs in a climate: 1 at the sheet's reference climate.</summary>
/// <remarks>
/// Equation, moisture: k = exp(E/R · (1/Tr − 1/Tp)) · (clamp(a, 0.05, 0.85)/a_r)^m, with a = e/e_w(Tp) the water activity at the film.
/// Equation, by deficit (a waterborne product evaporating): k = exp(E/R · (1/Tr − 1/Tp)) · max(0.05, (e_w(Tp) − e)/(e_w(Tr)(1 − a_r))).
/// Source: Arrhenius (law) with a power of the water activity (choice: 1 is first-order in water, 0.5 a diffusion front); clamps (choice).
/// Edges: in air drier than a = 0.10 or moister than 0.85 the slow bound earns nothing; above 0.85 the fast bound is not clamped, since
/// moist air makes a coat grab sooner. E is at constant relative humidity: driving the same law by vapour pressure would need another E.
/// </remarks>
public sealed record RateLaw
{
    /// <summary>Molar gas constant [J/(mol K)]. Source (law): SI 2019.</summary>
    public const double GasConstant = 8.314462618;

    /// <summary>Water activity below which the likely rate falls no further. Source (choice).</summary>
    public const double DriestActivity = 0.05;

    /// <summary>Water activity below which the slow bound earns nothing. Source (choice).</summary>
    public const double StalledActivity = 0.10;

    /// <summary>Water activity above which the likely rate rises no further. Source (choice).</summary>
    public const double MoistestActivity = 0.85;

    /// <summary>Least drying deficit, as a share of the reference deficit. Source (choice).</summary>
    public const double LeastDeficit = 0.05;

    private static readonly double LnDriest = Math.Log(DriestActivity);
    private static readonly double LnStalled = Math.Log(StalledActivity);
    private static readonly double LnMoistest = Math.Log(MoistestActivity);
    private static readonly double[] ActivityClamps = [LnDriest, LnStalled, LnMoistest];
    private static readonly double[] DeficitClamps = [Math.Log(LeastDeficit)];

    private readonly double _inverseReference;
    private readonly double _lnReferenceActivity;
    private readonly double _referenceDeficitPa;

    /// <summary>Takes the law's parameters.</summary>
    /// <param name="mechanism">The clock it drives.</param>
    /// <param name="byDeficit">True where drying is driven by the vapour-pressure deficit (waterborne evaporation).</param>
    /// <param name="activationEnergyJmol">Activation energy at constant relative humidity [J/mol], 0 or more.</param>
    /// <param name="humidityExponent">Exponent m of the water activity [1], 0 or more; of the deficit where <paramref name="byDeficit"/>.</param>
    /// <param name="reference">The climate at which the rate is 1.</param>
    public RateLaw(Mechanism mechanism, bool byDeficit, double activationEnergyJmol, double humidityExponent, ReferenceClimate reference)
    {
        Mechanism = mechanism;
        ByDeficit = byDeficit;
        ActivationEnergyJmol = activationEnergyJmol;
        HumidityExponent = humidityExponent;
        Reference = reference;
        IsForRelease = mechanism == Mechanism.Cure;
        _inverseReference = 1 / reference.Temperature.Kelvins;
        _lnReferenceActivity = Math.Log(reference.Humidity.Fraction);
        _referenceDeficitPa = SaturationPressure.OverWaterPa(reference.Temperature.Kelvins) * (1 - reference.Humidity.Fraction);
    }

    /// <summary>The clock the law drives.</summary>
    public Mechanism Mechanism { get; }

    /// <summary>True where drying is driven by the vapour-pressure deficit.</summary>
    public bool ByDeficit { get; }

    /// <summary>Activation energy at constant relative humidity [J/mol].</summary>
    public double ActivationEnergyJmol { get; }

    /// <summary>Exponent of the humidity term [1].</summary>
    public double HumidityExponent { get; }

    /// <summary>The climate at which the rate is 1.</summary>
    public ReferenceClimate Reference { get; }

    /// <summary>
    /// Whether somebody is let go by its slow bound, so that what was earned must not be taken back by what is read later: of cure always, of an
    /// evaporation only where a release is driven by it, and not an act.
    /// </summary>
    public bool IsForRelease { get; init; }

    /// <summary>How sure the sheet is of the energy and the exponent; of its hours the law says nothing, so that stages may share it.</summary>
    /// <remarks>The default is a law that nothing is left open of.</remarks>
    public FitCovariance Doubt { get; init; }

    /// <summary>Splits a climate into the two terms the law is linear in: ln k = −E·x + m·y.</summary>
    /// <param name="panelKelvins">Panel temperature [K].</param>
    /// <param name="vapourPressurePa">Vapour pressure of the air [Pa], above 0.</param>
    /// <returns>x = (1/Tp − 1/Tr)/R [mol/J] and y, the logarithm of the humidity term, clamped as either rate is.</returns>
    public RateTerms Terms(double panelKelvins, double vapourPressurePa)
    {
        if (ByDeficit)
        {
            double x = ((1 / panelKelvins) - _inverseReference) / GasConstant;
            double share = (SaturationPressure.OverWaterPa(panelKelvins) - vapourPressurePa) / _referenceDeficitPa;
            double y = Math.Log(Math.Max(LeastDeficit, share));
            return new RateTerms(x, y, y, share > LeastDeficit);
        }

        return TermsAt(panelKelvins, Math.Log(vapourPressurePa) - SaturationPressure.LnOverWater(panelKelvins));
    }

    /// <summary>Splits a climate whose water activity is known into the terms of a law that is driven by it.</summary>
    /// <param name="panelKelvins">Panel temperature [K].</param>
    /// <param name="lnActivity">Logarithm of the water activity at the panel [1].</param>
    /// <returns>The terms, as of <see cref="Terms"/>; of no meaning for a law by deficit.</returns>
    public RateTerms TermsAt(double panelKelvins, double lnActivity)
    {
        double clamped = Math.Clamp(lnActivity, LnDriest, LnMoistest);
        return new RateTerms(
            ((1 / panelKelvins) - _inverseReference) / GasConstant,
            clamped - _lnReferenceActivity,
            Math.Max(clamped, lnActivity) - _lnReferenceActivity,
            lnActivity >= LnStalled && lnActivity <= LnMoistest);
    }

    /// <summary>The likely rate.</summary>
    /// <param name="terms">The climate's terms.</param>
    /// <returns>Reference hours earned in an hour [1], above 0.</returns>
    public double Likely(RateTerms terms) => Math.Exp((HumidityExponent * terms.Y) - (ActivationEnergyJmol * terms.X));

    /// <summary>The fast rate, for what must not be too late.</summary>
    /// <param name="terms">The climate's terms.</param>
    /// <returns>Reference hours earned in an hour [1], not below <see cref="Likely"/>.</returns>
    public double Fast(RateTerms terms) => Math.Exp((HumidityExponent * terms.YFast) - (ActivationEnergyJmol * terms.X));

    /// <summary>How unsure the sheet leaves the ratio of the likely rates in two climates.</summary>
    /// <param name="one">The terms of one.</param>
    /// <param name="other">The terms of the other.</param>
    /// <returns>Standard error of the ratio's logarithm [1]; 0 for two climates that are the same to the law.</returns>
    public double DoubtBetween(RateTerms one, RateTerms other) => Math.Sqrt(Doubt.VarianceOfLnHours(one.X - other.X, one.Y - other.Y));

    /// <summary>The humidity levels at which a bound starts or stops to follow the humidity.</summary>
    public ReadOnlySpan<double> Clamps => ByDeficit ? DeficitClamps : ActivityClamps;

    /// <summary>The logarithm the humidity term follows: of the water activity, or of the deficit's share of the reference deficit.</summary>
    /// <param name="panelKelvins">Panel temperature [K].</param>
    /// <param name="vapourPressurePa">Vapour pressure of the air [Pa], above 0.</param>
    /// <returns>The level [1]; a deficit below a thousandth of the reference counts as a thousandth.</returns>
    public double HumidityLevel(double panelKelvins, double vapourPressurePa) => ByDeficit
        ? Math.Log(Math.Max(0.001, (SaturationPressure.OverWaterPa(panelKelvins) - vapourPressurePa) / _referenceDeficitPa))
        : Math.Log(vapourPressurePa) - SaturationPressure.LnOverWater(panelKelvins);

    /// <summary>How far the humidity level can move while temperature and vapour pressure run straight between two climates.</summary>
    /// <param name="startKelvins">Panel temperature at the start [K].</param>
    /// <param name="startPa">Vapour pressure at the start [Pa].</param>
    /// <param name="endKelvins">Panel temperature at the end [K].</param>
    /// <param name="endPa">Vapour pressure at the end [Pa].</param>
    /// <returns>An upper bound [1] of the level's total movement.</returns>
    public double HumidityReach(double startKelvins, double startPa, double endKelvins, double endPa)
    {
        double slope = SaturationPressure.WaterSlope(Math.Min(startKelvins, endKelvins));
        double kelvins = Math.Abs(endKelvins - startKelvins);
        double pascals = Math.Abs(endPa - startPa);
        if (!ByDeficit)
        {
            return (pascals / Math.Min(startPa, endPa)) + (slope * kelvins);
        }

        double warmest = SaturationPressure.OverWaterPa(Math.Max(startKelvins, endKelvins));
        double least = Math.Min(HumidityLevel(startKelvins, startPa), HumidityLevel(endKelvins, endPa));
        return (pascals + (warmest * slope * kelvins)) / (_referenceDeficitPa * Math.Max(LeastDeficit, Math.Exp(least)));
    }

    /// <summary>How the logarithm of the likely rate changes with the panel's temperature and with the vapour pressure.</summary>
    /// <param name="panelKelvins">Panel temperature [K].</param>
    /// <param name="vapourPressurePa">Vapour pressure of the air [Pa], above 0.</param>
    /// <returns>∂ ln k/∂Tp at fixed vapour pressure [1/K], and ∂ ln k/∂ ln e [1]; on a clamp the humidity terms are 0.</returns>
    public (double PerPanelKelvin, double PerLnVapour) Slopes(double panelKelvins, double vapourPressurePa)
    {
        double byEnergy = ActivationEnergyJmol / (GasConstant * panelKelvins * panelKelvins);
        double level = HumidityLevel(panelKelvins, vapourPressurePa);
        if (level < Clamps[0] || level > (ByDeficit ? double.PositiveInfinity : LnMoistest))
        {
            return (byEnergy, 0);
        }

        double slope = SaturationPressure.WaterSlope(panelKelvins);
        if (!ByDeficit)
        {
            return (byEnergy - (HumidityExponent * slope), HumidityExponent);
        }

        double saturatedPa = SaturationPressure.OverWaterPa(panelKelvins);
        double deficitPa = saturatedPa - vapourPressurePa;
        return (byEnergy + (HumidityExponent * saturatedPa * slope / deficitPa), -HumidityExponent * vapourPressurePa / deficitPa);
    }

    /// <summary>The vapour pressure that gives a humidity term.</summary>
    /// <param name="panelKelvins">Panel temperature [K].</param>
    /// <param name="y">The law's y [1].</param>
    /// <returns>Vapour pressure [Pa], at least 1 Pa.</returns>
    public double VapourPressurePaAt(double panelKelvins, double y)
    {
        double saturatedPa = SaturationPressure.OverWaterPa(panelKelvins);
        double pa = ByDeficit ? saturatedPa - (Math.Exp(y) * _referenceDeficitPa) : Math.Exp(y + _lnReferenceActivity) * saturatedPa;
        return Math.Max(1, pa);
    }
}

/// <summary>A climate in the terms a rate law is linear in.</summary>
/// <param name="X">(1/Tp − 1/Tr)/R [mol/J]; above 0 where it is colder than the reference.</param>
/// <param name="Y">Logarithm of the humidity term, clamped as the likely rate is.</param>
/// <param name="YFast">The same, clamped as the fast rate is.</param>
/// <param name="SlowEarns">Whether the slow bound earns anything here.</param>
/// <remarks>The default is the reference climate with a slow bound that earns nothing.</remarks>
public readonly record struct RateTerms(double X, double Y, double YFast, bool SlowEarns);
