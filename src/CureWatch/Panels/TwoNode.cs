namespace CureWatch.Panels;

/// <summary>A skin between the air and a body that is still cold, in air whose temperature runs straight: a car that stood outside.</summary>
/// <param name="SkinJm2K">Heat the skin holds [J/m²K], above 0.</param>
/// <param name="BodyJm2K">Heat the body behind it holds, on the skin's area [J/m²K]; 0 where there is none.</param>
/// <remarks>
/// Equation: C·dT_s/dt = h_o(T_air − T_s) + h_i(T_b − T_s), C_b·dT_b/dt = h_i(T_s − T_b), solved in closed form. Source (law): heat balance of two
/// lumps; (choice) h_i 4.5 W/m²K and C_b 15 to 28 kJ/m²K, common practice, no source. The default is no skin at all.
/// </remarks>
public readonly record struct TwoNode(double SkinJm2K, double BodyJm2K)
{
    /// <summary>The lightest body behind a skin [J/m²K].</summary>
    public const double LightBodyJm2K = 15_000;

    /// <summary>The heaviest [J/m²K].</summary>
    public const double HeavyBodyJm2K = 28_000;

    /// <summary>A usual one [J/m²K]: half-way between.</summary>
    public const double UsualBodyJm2K = (LightBodyJm2K + HeavyBodyJm2K) / 2;

    /// <summary>Heat from the air to the skin [W/m²K]: see <see cref="PanelHeat.StillAirWm2K"/>.</summary>
    private const double OutsideWm2K = PanelHeat.StillAirWm2K;

    /// <summary>Heat from the body to the skin [W/m²K].</summary>
    private const double InsideWm2K = 4.5;

    /// <summary>The same in air that brings less heat, or more.</summary>
    /// <param name="factor">By how much slower everything runs [1], above 0.</param>
    /// <returns>The skin and its body.</returns>
    public TwoNode Slower(double factor) => new(SkinJm2K * factor, BodyJm2K * factor);

    /// <summary>The temperatures after a while.</summary>
    /// <param name="start">Skin and body at the start [K].</param>
    /// <param name="airStartKelvins">The air's at the start [K].</param>
    /// <param name="airEndKelvins">The air's at the end [K].</param>
    /// <param name="elapsed">How long, zero or more.</param>
    /// <returns>Skin and body at the end [K].</returns>
    public (double Skin, double Body) After(
        (double Skin, double Body) start, double airStartKelvins, double airEndKelvins, TimeSpan elapsed)
    {
        double t = elapsed.TotalSeconds;
        if (t <= 0)
        {
            return start;
        }

        if (BodyJm2K <= 0)
        {
            double alone = OneNode.After(start.Skin, airStartKelvins, airEndKelvins, elapsed, TimeSpan.FromSeconds(SkinJm2K / OutsideWm2K));
            return (alone, alone);
        }

        double slope = (airEndKelvins - airStartKelvins) / t;
        double skinLag = (SkinJm2K + BodyJm2K) * slope / OutsideWm2K, bodyLag = skinLag + (BodyJm2K * slope / InsideWm2K);
        (double skin, double body) = Decay(start.Skin - (airStartKelvins - skinLag), start.Body - (airStartKelvins - bodyLag), t);
        return (airEndKelvins - skinLag + skin, airEndKelvins - bodyLag + body);
    }

    /// <summary>What is left of a difference from the straight course: exp(At) of a matrix with two different, negative eigenvalues.</summary>
    private (double Skin, double Body) Decay(double skin, double body, double t)
    {
        double ss = -(OutsideWm2K + InsideWm2K) / SkinJm2K, sb = InsideWm2K / SkinJm2K, bs = InsideWm2K / BodyJm2K, bb = -bs;
        double mean = (ss + bb) / 2, root = Math.Sqrt(((ss - bb) * (ss - bb) / 4) + (sb * bs));
        double slow = mean + root, fast = mean - root;
        double one = Math.Exp(slow * t) / (2 * root), other = Math.Exp(fast * t) / (2 * root);
        return (
            (((one * (ss - fast)) - (other * (ss - slow))) * skin) + ((one - other) * sb * body),
            ((one - other) * bs * skin) + (((one * (bb - fast)) - (other * (bb - slow))) * body));
    }
}
