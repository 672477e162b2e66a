namespace CureWatch.Panels;

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

    /// <summary>The air at an instant, and a surface as warm as it.</summary>
    /// <param name="at">The instant, inside the bracket.</param>
    /// <returns>The exposure.</returns>
    internal Exposure AirAt(DateTimeOffset at) => new(KelvinsAt(at), VapourPressurePaAt(at), KelvinsAt(at));

    /// <summary>How far it was from the air when it was heard last [K], of a panel that is silent beside air that is heard; else null.</summary>
    public double? ApartKelvins { get; init; }

    private double ShareAt(DateTimeOffset at) => To is { } to && to > From ? (at - From) / (to - From) : 0;
}
