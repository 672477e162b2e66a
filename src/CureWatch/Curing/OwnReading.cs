namespace CureWatch.Curing;

/// <summary>A temperature read on the surface itself: by a probe that is fixed to it, or by hand.</summary>
/// <param name="At">When it was read.</param>
/// <param name="PanelC">What it said [°C].</param>
/// <param name="Reach">How far the next one may be away for the time between them to be known, while a lamp heats the surface.</param>
/// <remarks>
/// The reaches are choices: under a lamp sheet metal moves by tens of kelvins a minute, so that a probe has to speak every two minutes, or once in one
/// and a half of its own intervals; a person who holds an instrument to the surface sees what it does in between, and has five.
/// </remarks>
public readonly record struct OwnReading(DateTimeOffset At, double PanelC, TimeSpan Reach)
{
    /// <summary>The section it was read on; null where nobody said, and of a probe.</summary>
    public int? Section { get; init; }

    /// <summary>How far apart readings by hand may lie [5 min].</summary>
    public static readonly TimeSpan ReachOfSpot = TimeSpan.FromMinutes(5);

    private static readonly TimeSpan LeastReachOfProbe = TimeSpan.FromMinutes(2);

    /// <summary>A reading by hand.</summary>
    /// <param name="at">When it was read.</param>
    /// <param name="panelC">What it said [°C].</param>
    /// <returns>The reading.</returns>
    public static OwnReading ByHand(DateTimeOffset at, double panelC) => new(at, panelC, ReachOfSpot);

    /// <summary>How far apart the readings of a probe may lie: 2 min, or 1.5 of its intervals, up to 5 min.</summary>
    /// <param name="every">How often the probe reports.</param>
    /// <returns>The reach.</returns>
    public static TimeSpan ReachOfProbe(TimeSpan every)
    {
        TimeSpan own = 1.5 * every;
        return own < LeastReachOfProbe ? LeastReachOfProbe : own > ReachOfSpot ? ReachOfSpot : own;
    }

    /// <summary>Whether the time up to the next reading is known.</summary>
    /// <param name="next">The next reading.</param>
    /// <returns>False where they lie too far apart for either of them.</returns>
    public bool Reaches(OwnReading next) => next.At - At <= Reach && next.At - At <= next.Reach;
}
