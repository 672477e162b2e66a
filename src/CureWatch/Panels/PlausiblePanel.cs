namespace CureWatch.Panels;

/// <summary>How far from its air a panel may be whose probe is silent: in air that is heard it is not just anywhere.</summary>
/// <remarks>
/// Source (choice): two standard errors of a panel that is modelled, and what it was apart when it was heard last. Of that, 3 K may last: a roof or a wall
/// 5 K colder than the air keeps a panel 3 K below it, by the share that radiation has in 8.29 W/m²K. What is beyond, of a cold car or a panel in the
/// sun, fades over 4 h, the longest a soaked car takes.
/// </remarks>
internal static class PlausiblePanel
{
    private const double AnywhereK = 2 * ClimateDoubt.LagK;

    /// <summary>How far a panel may stay from its air for good [K].</summary>
    public const double LastingK = 3;

    private static readonly TimeSpan Fading = TimeSpan.FromHours(4);

    /// <summary>How far below its air, and above it, the panel may be [K].</summary>
    /// <param name="apartKelvins">How far above it was when it was heard last [K].</param>
    /// <param name="silent">How long ago that was.</param>
    public static (double BelowK, double AboveK) After(double apartKelvins, TimeSpan silent) => (Of(-apartKelvins, silent), Of(apartKelvins, silent));

    /// <summary>The farthest from its air, on either side, that it may be over a stretch.</summary>
    /// <param name="givenUp">The panel.</param>
    /// <param name="air">Its air at the stretch's start and end, the panel as warm as that.</param>
    /// <param name="from">The stretch's start.</param>
    /// <param name="to">Its end.</param>
    public static IEnumerable<Alternative> Around(Bracket givenUp, Alternative air, DateTimeOffset from, DateTimeOffset to)
    {
        double apart = givenUp.ApartKelvins ?? 0;
        (double belowFrom, double aboveFrom) = After(apart, from - givenUp.From);
        (double belowTo, double aboveTo) = After(apart, to - givenUp.From);
        yield return air.Warmer(-belowFrom, -belowTo) with { IsUnheard = true };
        yield return air.Warmer(aboveFrom, aboveTo) with { IsUnheard = true };
    }

    private static double Of(double apartK, TimeSpan silent) =>
        AnywhereK + Math.Clamp(apartK, 0, LastingK) + (Math.Max(0, apartK - LastingK) * Math.Exp(-(silent / Fading)));
}
