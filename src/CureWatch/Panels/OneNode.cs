namespace CureWatch.Panels;

/// <summary>A surface of one temperature throughout, in air whose temperature runs straight.</summary>
/// <remarks>
/// Equation: τ·dT/dt = T_air(t) − T. Source (law): lumped heat balance, e.g. Incropera, Fundamentals of Heat and Mass Transfer, chapter 5.
/// A real car's skin sits on a body that is still cold, so what this says of a cold car is the earliest it can be.
/// </remarks>
public static class OneNode
{
    /// <summary>Two readings whose distances from the air are closer than this tell no time constant [1]. Source (choice): a millionth.</summary>
    private const double LeastRatio = 1 + 1e-6;

    /// <summary>Its temperature after a while.</summary>
    /// <param name="startKelvins">Its temperature at the start [K].</param>
    /// <param name="airStartKelvins">The air's at the start [K].</param>
    /// <param name="airEndKelvins">The air's at the end [K].</param>
    /// <param name="elapsed">How long, zero or more.</param>
    /// <param name="timeConstant">τ; at zero the surface is the air.</param>
    /// <returns>Its temperature at the end [K]; never beyond the range of the other three.</returns>
    /// <remarks>Equation: T = A₁ + (T₀ − A₀)·e⁻ˣ − (A₁ − A₀)·(1 − e⁻ˣ)/x with x = t/τ: exact, so any way to cut it up gives the same.</remarks>
    public static double After(double startKelvins, double airStartKelvins, double airEndKelvins, TimeSpan elapsed, TimeSpan timeConstant)
    {
        if (timeConstant <= TimeSpan.Zero)
        {
            return airEndKelvins;
        }

        double x = elapsed / timeConstant, left = Math.Exp(-x);
        return x <= 0 ? startKelvins : airEndKelvins + ((startKelvins - airStartKelvins) * left) - ((airEndKelvins - airStartKelvins) * (1 - left) / x);
    }

    /// <summary>How long it takes to come nearer to air that stays as it is.</summary>
    /// <param name="apartKelvins">How far from the air it is at the start [K]; on the other side of it below zero.</param>
    /// <param name="targetApartKelvins">How far from it is awaited [K].</param>
    /// <param name="timeConstant">τ, above zero.</param>
    /// <returns>The time; zero where it is as near already, null where the air never takes it there.</returns>
    /// <remarks>Equation: t = τ·ln((T_air − T₀)/(T_air − T)), the same for a surface that cools down.</remarks>
    public static TimeSpan? TimeTo(double apartKelvins, double targetApartKelvins, TimeSpan timeConstant) =>
        apartKelvins <= targetApartKelvins ? TimeSpan.Zero
        : targetApartKelvins <= 0 ? null
        : timeConstant * Math.Log(apartKelvins / targetApartKelvins);

    /// <summary>The time constant that two readings tell.</summary>
    /// <param name="firstApartKelvins">How far from the air the first was [K].</param>
    /// <param name="secondApartKelvins">How far from it the second was [K].</param>
    /// <param name="elapsed">The time between them, above zero.</param>
    /// <returns>τ; null where the second is no nearer to the air than the first, or beyond it.</returns>
    /// <remarks>Equation: τ = Δt/ln((T_air − T₁)/(T_air − T₂)).</remarks>
    public static TimeSpan? TimeConstant(double firstApartKelvins, double secondApartKelvins, TimeSpan elapsed)
    {
        double ratio = firstApartKelvins / secondApartKelvins;
        return ratio is > LeastRatio and < double.PositiveInfinity && elapsed > TimeSpan.Zero ? elapsed / Math.Log(ratio) : null;
    }
}
