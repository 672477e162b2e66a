using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>How far from its air a panel may be whose probe is silent: in air that is heard it is not just anywhere.</summary>
/// <remarks>
/// Source (choice): two standard errors of a panel that is modelled, and what it was apart when it was heard last. Of that, 3 K may last: a roof or a wall
/// 5 K colder than the air keeps a panel 3 K below it, by the share that radiation has in 8.29 W/m²K. What is beyond, of a cold car or a panel in the
/// sun, fades over 4 h, the longest a soaked car takes; and so does what the air moved while the panel was waited for, since nobody saw it follow. Nothing fades
/// while it is waited for: giving it up tells nothing, so no release comes nearer by that.
/// </remarks>
internal static class PlausiblePanel
{
    private const double AnywhereK = 2 * ClimateDoubt.LagK;

    /// <summary>How far a panel may stay from its air for good [K].</summary>
    public const double LastingK = 3;

    private static readonly TimeSpan Fading = TimeSpan.FromHours(4);

    /// <summary>The last that was heard of a panel that is given up, beside its air.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="last">Its last reading.</param>
    /// <param name="air">Sources of its air.</param>
    /// <param name="now">The present.</param>
    public static Bracket LastOf(Source panel, Bracket last, ImmutableArray<Source> air, DateTimeOffset now)
    {
        double then = KelvinsAt(last.From) ?? last.FromKelvins;
        return last with { ApartKelvins = last.FromKelvins - then, AirMovedKelvins = (KelvinsAt(last.From + panel.Patience) ?? then) - then };

        double? KelvinsAt(DateTimeOffset at) => AirMix.Over(air, at, at, now)?.Start.AirKelvins;
    }

    /// <summary>How far below its air, and above it, the panel may be [K].</summary>
    /// <param name="givenUp">The panel.</param>
    /// <param name="at">When, after it was given up.</param>
    /// <param name="isFollowed">Whether what the panel lags behind its air is reckoned with elsewhere.</param>
    public static (double BelowK, double AboveK) At(Bracket givenUp, DateTimeOffset at, bool isFollowed = false)
    {
        TimeSpan unawaited = at - givenUp.From - Source.CureLimit;
        double left = unawaited > TimeSpan.Zero ? Math.Exp(-(unawaited / Fading)) : 1, apart = givenUp.ApartKelvins ?? 0, moved = isFollowed ? 0 : givenUp.AirMovedKelvins;
        return (Of(-apart, moved, left), Of(apart, -moved, left));
    }

    /// <summary>The farthest from its air, on either side, that it may be over a stretch.</summary>
    /// <param name="givenUp">The panel.</param>
    /// <param name="air">Its air at the stretch's start and end, the panel as warm as that.</param>
    /// <param name="from">The stretch's start.</param>
    /// <param name="to">Its end.</param>
    /// <remarks>What the surface lags behind its air comes on top of that (<see cref="PanelCourse"/>).</remarks>
    public static IEnumerable<Alternative> Around(Bracket givenUp, Alternative air, DateTimeOffset from, DateTimeOffset to)
    {
        (double belowFrom, double aboveFrom) = At(givenUp, from, isFollowed: true);
        (double belowTo, double aboveTo) = At(givenUp, to, isFollowed: true);
        yield return air.Warmer(-belowFrom, -belowTo);
        yield return air.Warmer(aboveFrom, aboveTo);
    }

    private static double Of(double apartK, double awayK, double left) =>
        AnywhereK + Math.Clamp(apartK, 0, LastingK) + (left * (Math.Max(0, apartK - LastingK) + Math.Max(0, awayK)));
}
