using CureWatch.Panels;

namespace CureWatch.Curing;

/// <summary>A surface that is still warm from a lamp: it must not be levelled, coated again or begun on before it has cooled.</summary>
/// <param name="PanelC">How warm it is [°C]: read, or reckoned from what was read last.</param>
/// <param name="LimitC">How warm it may be [°C]: what the sheet allows, and no more than a few kelvins above the air.</param>
/// <param name="CoolFrom">From when on it is cool; null while a lamp burns over it, or where the air itself is too warm.</param>
/// <param name="IsMeasured">Whether it was read since the lamp was off.</param>
/// <remarks>
/// Equation: that of <see cref="OneNode"/>, in air that stays as it is. τ is what two of its own readings tell, else that of its material in still
/// air.
/// </remarks>
public sealed record CoolDown(double PanelC, double LimitC, DateTimeOffset? CoolFrom, bool IsMeasured)
{
    /// <summary>How much warmer than the air a surface may be when it is worked on [K]. Source (choice): flash shortens by a third over 5 K.</summary>
    public const double AboveAirK = 5;

    /// <summary>Whether it has cooled: the lamp is off, and it is no warmer than it may be.</summary>
    public bool HasCooled { get; private init; }

    /// <summary>Whether it is reckoned from a reading of the surface itself, and not from what a lamp may have made of it.</summary>
    public bool IsFromReading { get; private init; }

    /// <summary>Two readings tell a time constant when they lie at least this far apart. Source (choice).</summary>
    private static readonly TimeSpan ShortestPair = TimeSpan.FromMinutes(1);

    /// <summary>How far what two readings tell may be from the material's own. Source (choice): a fan on one side, a body behind that stores heat on the other.</summary>
    private const double LeastShare = 0.25, MostShare = 4;

    /// <summary>How a surface cools down from its last lamp, or has.</summary>
    /// <param name="lamp">The lamp, with its end.</param>
    /// <param name="own">The surface's own readings, in order.</param>
    /// <param name="airC">The air around it [°C].</param>
    /// <param name="panelMaxC">How warm its sheet allows it to be [°C]; null where that says nothing.</param>
    /// <param name="assumedC">How hot it was under the lamp where nobody read it [°C].</param>
    /// <param name="timeConstant">τ of its material, above zero.</param>
    /// <param name="now">The present.</param>
    /// <returns>How warm it is, and since or from when on it is cool.</returns>
    public static CoolDown After(
        Spell lamp, IReadOnlyList<OwnReading> own, double airC, double? panelMaxC, double assumedC, TimeSpan timeConstant, DateTimeOffset now)
    {
        double limitC = Math.Min(panelMaxC ?? double.PositiveInfinity, airC + AboveAirK);
        OwnReading[] under = [.. own.Where(r => r.At >= lamp.From && r.At <= now)];
        if (lamp.Covers(now) || lamp.To is not { } off)
        {
            return new CoolDown(under.Length > 0 ? under[^1].PanelC : assumedC, limitC, null, under.Length > 0) { IsFromReading = under.Length > 0 };
        }

        OwnReading[] since = [.. under.Where(r => r.At >= off)];
        OwnReading start = since.Length > 0 ? since[^1]
            : under.Length > 0 && off - under[^1].At <= under[^1].Reach ? under[^1] with { At = off }
            : new OwnReading(off, assumedC, TimeSpan.Zero);
        TimeSpan told = Told(since, airC, timeConstant);
        double nowC = airC + ((start.PanelC - airC) * Math.Exp(-((now - start.At) / told)));
        DateTimeOffset? coolFrom = limitC > airC ? start.At + OneNode.TimeTo(start.PanelC - airC, limitC - airC, told) : null;
        return new CoolDown(nowC, limitC, coolFrom, since.Length > 0)
        {
            HasCooled = nowC <= limitC,
            IsFromReading = start.Reach > TimeSpan.Zero,
        };
    }

    private static TimeSpan Told(OwnReading[] since, double airC, TimeSpan timeConstant) =>
        since.Length > 1 && since[^1].At - since[0].At >= ShortestPair
            && OneNode.TimeConstant(since[0].PanelC - airC, since[^1].PanelC - airC, since[^1].At - since[0].At) is { } told
            ? timeConstant * Math.Clamp(told / timeConstant, LeastShare, MostShare)
            : timeConstant;
}
