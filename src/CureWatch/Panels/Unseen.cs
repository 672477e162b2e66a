using CureWatch.Products;

namespace CureWatch.Panels;

/// <summary>The readings on either side of a stretch that nobody measured.</summary>
/// <param name="Air">The readings of the air around it.</param>
/// <param name="Panel">The readings of the panel around it; null where the panel is taken as the air.</param>
/// <param name="IsGapForEvaporation">Whether it is too long for the clock that runs in minutes.</param>
/// <param name="IsGapForCure">Whether it is too long for the clock that runs in hours.</param>
public sealed record Unseen(Bracket Air, Bracket? Panel, bool IsGapForEvaporation, bool IsGapForCure)
{
    /// <summary>Whether it is too long for a clock.</summary>
    /// <param name="clock">The clock.</param>
    /// <returns>True for a gap.</returns>
    public bool IsGapFor(Mechanism clock) => clock == Mechanism.Evaporation ? IsGapForEvaporation : IsGapForCure;
}

/// <summary>Two readings of one thing with nothing between them; open where the second has not come.</summary>
/// <param name="From">When the first was measured.</param>
/// <param name="FromKelvins">What it said [K].</param>
/// <param name="FromVapourPressurePa">Vapour pressure it said [Pa]; 0 for a panel.</param>
/// <param name="To">When the second was measured; null while it is awaited.</param>
/// <param name="ToKelvins">What it said [K].</param>
/// <param name="ToVapourPressurePa">Vapour pressure it said [Pa]; 0 for a panel.</param>
public sealed record Bracket(
    DateTimeOffset From,
    double FromKelvins,
    double FromVapourPressurePa,
    DateTimeOffset? To,
    double ToKelvins,
    double ToVapourPressurePa)
{
    /// <summary>How long it is; until an instant where it is open.</summary>
    /// <param name="now">The instant.</param>
    /// <returns>The stretch without a reading.</returns>
    public TimeSpan Length(DateTimeOffset now) => (To ?? now) - From;

    /// <summary>Temperature at an instant: straight between the readings, held where the second is awaited [K].</summary>
    /// <param name="at">The instant, inside the bracket.</param>
    /// <returns>The temperature [K].</returns>
    public double KelvinsAt(DateTimeOffset at) => FromKelvins + ((ToKelvins - FromKelvins) * ShareAt(at));

    /// <summary>Vapour pressure at an instant: straight between the readings, held where the second is awaited [Pa].</summary>
    /// <param name="at">The instant, inside the bracket.</param>
    /// <returns>The vapour pressure [Pa].</returns>
    public double VapourPressurePaAt(DateTimeOffset at) =>
        FromVapourPressurePa + ((ToVapourPressurePa - FromVapourPressurePa) * ShareAt(at));

    private double ShareAt(DateTimeOffset at) => To is { } to && to > From ? (at - From) / (to - From) : 0;
}
