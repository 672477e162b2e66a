using CureWatch.Curing;

namespace CureWatch.Warnings;

/// <summary>Foresees from its own readings when a surface that is heated gets hotter than it may.</summary>
/// <param name="At">When it reaches its limit if it goes on as fast as it did; the newest reading where it has.</param>
/// <param name="IsUrgent">Whether somebody has to act now: after the next reading it would be too late.</param>
/// <remarks>
/// Equation: t = (T_limit − T)/(ΔT/Δt), over the newest reading and the last one half a minute older. A surface under a lamp comes to its final
/// temperature ever more slowly, T = T∞ − (T∞ − T₀)·e^(−t/τ), so that straight on is never later than it is. Source (law): lumped heat balance,
/// τ·dT/dt = T∞ − T. Choice: half a minute, so that a probe's noise makes no heat; a kelvin of the limit is left for what the probe may be off.
/// </remarks>
public sealed record HeatAhead(DateTimeOffset At, bool IsUrgent)
{
    /// <summary>How long it takes somebody who stands by to switch the lamp off [1 min]. Source (choice).</summary>
    public static readonly TimeSpan ToSwitchOff = TimeSpan.FromMinutes(1);

    /// <summary>How near the limit is at it already [K]. Source (choice): what a panel probe may be off, and more.</summary>
    public const double MarginK = 1;

    /// <summary>How far below its limit a surface has to be for a warning to be over [K]. Source (choice): no chatter at the limit.</summary>
    public const double CooledK = 3;

    private static readonly TimeSpan ShortestBase = TimeSpan.FromSeconds(30);

    private static readonly TimeSpan LongestBase = TimeSpan.FromMinutes(10);

    /// <summary>What would take longer than a lamp burns is not on the way; a hair's breadth above the air is none.</summary>
    private static readonly TimeSpan LongestOnTheWay = LampSpell.Longest;

    /// <summary>Foresees the limit of a surface that was read only once under its lamp, or too long ago before that.</summary>
    /// <param name="unlit">What it may have been when the lamp was switched on: no colder than the air.</param>
    /// <param name="last">Its newest reading, after that.</param>
    /// <param name="limitC">How hot it may get [°C].</param>
    /// <param name="now">The present.</param>
    /// <returns>When it gets there; null where it is not on the way. The next look is due within five minutes, so it is urgent as long before.</returns>
    /// <remarks>Edges: it heats up fastest at first, so that what it gained on average since the lamp was on is more than it gains now.</remarks>
    public static HeatAhead? OfOne(OwnReading unlit, OwnReading last, double limitC, DateTimeOffset now)
    {
        TimeSpan heated = last.At - unlit.At > ShortestBase ? last.At - unlit.At : ShortestBase;
        double gainedK = last.PanelC - unlit.PanelC;
        double minutes = heated.TotalMinutes * Math.Max(0, limitC - last.PanelC) / gainedK;
        if (!(gainedK > 0) || minutes > LongestOnTheWay.TotalMinutes)
        {
            return null;
        }

        DateTimeOffset at = last.At + TimeSpan.FromMinutes(minutes);
        return new HeatAhead(at, at <= now + OwnReading.ReachOfSpot);
    }

    /// <summary>Foresees the limit.</summary>
    /// <param name="own">The surface's own readings, in order.</param>
    /// <param name="limitC">How hot it may get [°C].</param>
    /// <returns>When it gets there; null where it is not on the way.</returns>
    public static HeatAhead? Of(IReadOnlyList<OwnReading> own, double limitC)
    {
        if (own.Count == 0)
        {
            return null;
        }

        OwnReading last = own[^1];
        if (last.PanelC >= limitC)
        {
            return new HeatAhead(last.At, IsUrgent: true);
        }

        int before = own.Count - 2;
        while (before >= 0 && last.At - own[before].At < ShortestBase)
        {
            before--;
        }

        if (before < 0 || last.At - own[before].At > LongestBase || last.PanelC <= own[before].PanelC)
        {
            return null;
        }

        double kelvinsPerMinute = (last.PanelC - own[before].PanelC) / (last.At - own[before].At).TotalMinutes;
        double nextChanceMinutes = (last.At - own[^2].At + ToSwitchOff).TotalMinutes;
        double minutes = (limitC - last.PanelC) / kelvinsPerMinute;
        bool isUrgent = last.PanelC + (kelvinsPerMinute * nextChanceMinutes) >= limitC - MarginK;
        return minutes <= LongestBase.TotalMinutes ? new HeatAhead(last.At + TimeSpan.FromMinutes(minutes), isUrgent) : null;
    }

    /// <summary>Whether a surface has cooled enough for a warning to be over.</summary>
    /// <param name="last">Its newest reading.</param>
    /// <param name="limitC">How hot it may get [°C].</param>
    /// <returns>True where it is well below its limit.</returns>
    public static bool IsCooled(OwnReading last, double limitC) => last.PanelC <= limitC - CooledK;
}
