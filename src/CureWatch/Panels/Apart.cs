namespace CureWatch.Panels;

/// <summary>How much warmer than the others of its kind a surface is since somebody read its temperature, and what is left of it.</summary>
/// <param name="Kelvins">What is left at the end of a segment [K], below 0 where it is colder.</param>
/// <param name="Since">When the temperature was read.</param>
/// <param name="FirstKelvins">What it was then [K].</param>
/// <param name="TimeConstant">How fast it fades: the surface's own, or what two spots have told.</param>
/// <param name="IsSuspect">Whether the spot may have shown the room: then neither the slow bound nor the fast one relies on it.</param>
public sealed record Apart(double Kelvins, DateTimeOffset Since, double FirstKelvins, TimeSpan TimeConstant, bool IsSuspect)
{
    /// <summary>What is less than this is nothing [K]. Source (choice): below what anybody measures.</summary>
    private const double NothingK = 0.05;

    /// <summary>The longest time constant two spots may tell. Source (choice): a soaked car with its body still cold takes up to 160 min.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromHours(4);

    /// <summary>The shortest one, as a part of the surface's own. Source (choice): air from both sides and a fan make it a quarter.</summary>
    private const double ShortestShare = 0.25;

    /// <summary>Whether anything is left.</summary>
    public bool IsFelt => Math.Abs(Kelvins) >= NothingK;

    /// <summary>What is left after a while.</summary>
    /// <param name="elapsed">The while.</param>
    /// <returns>The same, faded.</returns>
    public Apart After(TimeSpan elapsed) => this with { Kelvins = Kelvins * Math.Exp(-(elapsed / TimeConstant)) };

    /// <summary>Starts anew at a spot.</summary>
    /// <param name="spot">The spot.</param>
    /// <param name="othersKelvins">The temperature of the others of its kind then [K].</param>
    /// <param name="ownTimeConstant">The surface's own time constant, above zero.</param>
    /// <param name="before">What was left of an earlier spot; null where there was none.</param>
    /// <returns>The difference that the spot tells.</returns>
    public static Apart At(PanelSpot spot, double othersKelvins, TimeSpan ownTimeConstant, Apart? before)
    {
        double apart = spot.Kelvins - othersKelvins;
        TimeSpan told = (before is null || spot.WasLit ? null : OneNode.TimeConstant(before.FirstKelvins, apart, spot.At - before.Since)) ?? ownTimeConstant;
        TimeSpan shortest = ownTimeConstant * ShortestShare;
        return new Apart(apart, spot.At, apart, told < shortest ? shortest : told > Longest ? Longest : told, spot.IsSuspect);
    }
}
