using CureWatch.Psychrometrics;

namespace CureWatch.TimeWindows;

/// <summary>How likely something has happened by an instant, as far as its bounds say.</summary>
public static class Chance
{
    /// <summary>Beyond this the last digits of a chance are noise, and nobody tells it from certainty. Source (choice): one in a thousand million.</summary>
    private const double Farthest = 6;

    /// <summary>The chance that something has happened by an instant.</summary>
    /// <param name="bounds">When it happens: 5, 50 and 95 %.</param>
    /// <param name="at">The instant.</param>
    /// <returns>The chance [1], 0 to 1; never less for a later instant.</returns>
    /// <remarks>
    /// Equation: Φ(z), z running straight from −1.645 at the earliest over 0 at the likely to 1.645 at the latest, and on. Source (choice): two halves
    /// of normal laws, the plainest that has those three bounds; what a bound says is then what a chance says.
    /// Edges: what has no latest in this climate stays at a half, what has no likely at a twentieth, however late.
    /// </remarks>
    public static double By(this TimeBounds bounds, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(bounds);
        if (bounds.Likely is not { } likely)
        {
            return at >= bounds.Earliest ? NormalDistribution.ChanceBelow(-NormalDistribution.NinetyFifthPercentile) : 0;
        }

        if (at < likely)
        {
            TimeSpan before = likely - (bounds.Earliest ?? likely);
            return before > TimeSpan.Zero ? Below((at - likely) / before) : 0;
        }

        if (bounds.Latest is not { } latest)
        {
            return NormalDistribution.ChanceBelow(0);
        }

        return latest > likely ? Below((at - likely) / (latest - likely)) : 1;
    }

    /// <param name="bounds">How far from the likely instant, in the way to its bound [1]; below 0 before it.</param>
    private static double Below(double bounds) => NormalDistribution.ChanceBelow(Math.Clamp(NormalDistribution.NinetyFifthPercentile * bounds, -Farthest, Farthest));
}
