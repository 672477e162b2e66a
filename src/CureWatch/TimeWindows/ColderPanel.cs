using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.TimeWindows;

/// <summary>How much longer a coat takes on a panel that is colder all the while than the model of it, in the same air.</summary>
/// <remarks>
/// Equation: k(T)/k(T − B) · exp(1.645·‖v(T) − v(T − B)‖), v = (x, −y), ‖·‖ by the covariance of the fit: the law runs slower there, and is less sure by as
/// much at most. Source (law): triangle inequality for σ. Source (choice): at 10 °C, where a kelvin counts for more than in a warm bay, in the
/// sheet's own humidity and not in the coat's: so the factor is the same whatever a gap, a fault or the next reading makes of the mean climate. A film that dries by the
/// deficit is slower in moister air by more than this; its own slow bound earns least there anyway.
/// It counts for what nobody sees the end of (recoat-from, keep-dry, no-wash, full cure). A flash is seen to end, and a deadline would only come later.
/// </remarks>
internal static class ColderPanel
{
    private static readonly double ColdBayKelvins = new Celsius(10).Kelvins;

    /// <summary>By how much longer it takes.</summary>
    /// <param name="law">The law.</param>
    /// <param name="colderK">How much colder the panel may have been in the mean [K], 0 or more.</param>
    /// <returns>The factor [1], 1 or more.</returns>
    public static double Longer(RateLaw law, double colderK)
    {
        if (colderK <= 0)
        {
            return 1;
        }

        double vapourPressurePa = law.Reference.Humidity.Fraction * SaturationPressure.OverWaterPa(ColdBayKelvins);
        RateTerms modelled = law.Terms(ColdBayKelvins, vapourPressurePa), coldest = law.Terms(ColdBayKelvins - colderK, vapourPressurePa);
        double lessSure = Math.Exp(NormalDistribution.NinetyFifthPercentile * law.DoubtBetween(modelled, coldest));
        return Math.Max(1, law.Likely(modelled) / law.Likely(coldest) * lessSure);
    }
}
