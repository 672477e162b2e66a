using System.Collections.Immutable;
using CureWatch.Products;

namespace CureWatch.Panels;

/// <summary>The readings on either side of a stretch that nobody measured.</summary>
/// <param name="Air">The readings of the air around it, of every probe that counts with their mean; at least one.</param>
/// <param name="Panels">The readings of the panels around it, or of others that the surface follows, the coldest counting; empty where none is.</param>
/// <param name="Before">The climate that the readings before it told.</param>
/// <param name="IsGapForEvaporation">Whether it is too long for the clock that runs in minutes.</param>
/// <param name="IsGapForCure">Whether it is too long for the clock that runs in hours.</param>
/// <param name="IsAirLost">Whether no probe of the air was heard in time for that clock.</param>
/// <param name="IsDark">Whether no probe at all was: nobody could have noticed anything.</param>
/// <param name="IsElsewhere">Whether nobody measures where it was: what lies on either side says little of it.</param>
public sealed record Unseen(
    ImmutableArray<Bracket> Air,
    ImmutableArray<Bracket> Panels,
    Exposure Before,
    bool IsGapForEvaporation,
    bool IsGapForCure,
    bool IsAirLost = false,
    bool IsDark = false,
    bool IsElsewhere = false)
{
    /// <summary>Whether the panel is a measured one: else it follows the air, and those panels where they are colder.</summary>
    public bool IsPanelMeasured { get; init; }

    /// <summary>How long the surface lags behind what it follows where it is not measured.</summary>
    public TimeSpan PanelLag { get; init; }

    /// <summary>Whether a panel was waited for that has not been heard since: what its next reading says is still open.</summary>
    public bool IsPanelAwaited { get; init; }

    /// <summary>When the last of the readings before it was taken.</summary>
    public DateTimeOffset Since => Panels.IsEmpty ? Air.Max(b => b.From) : Air.Concat(Panels).Max(b => b.From);

    /// <inheritdoc/>
    public bool Equals(Unseen? other) =>
        other is not null && Air.SequenceEqual(other.Air) && Panels.SequenceEqual(other.Panels)
        && (Before, IsPanelMeasured, IsPanelAwaited, PanelLag) == (other.Before, other.IsPanelMeasured, other.IsPanelAwaited, other.PanelLag)
        && (IsGapForEvaporation, IsGapForCure, IsAirLost, IsDark, IsElsewhere)
            == (other.IsGapForEvaporation, other.IsGapForCure, other.IsAirLost, other.IsDark, other.IsElsewhere);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Air.Length, Panels.Length, Air[0], IsGapForCure, IsDark);

    /// <summary>Whether it is too long for a clock.</summary>
    /// <param name="clock">The clock.</param>
    /// <returns>True for a gap.</returns>
    public bool IsGapFor(Mechanism clock) => clock == Mechanism.Evaporation ? IsGapForEvaporation : IsGapForCure;
}
