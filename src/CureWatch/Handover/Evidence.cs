using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Handover;

/// <summary>All that is known of one surface when the handover is ruled on.</summary>
/// <param name="Story">What people told.</param>
/// <param name="Laws">The laws of its product.</param>
/// <param name="Coats">The windows of its living coats.</param>
/// <param name="WetSpells">When the coldest panel around it was at or below the condensation temperature.</param>
/// <param name="Unwatched">When it was where nobody measures.</param>
/// <param name="Overheats">When it was hotter than it may be.</param>
public sealed record Evidence(
    SurfaceStory Story,
    CoatLaws Laws,
    ImmutableArray<CoatEvidence> Coats,
    ImmutableArray<Spell> WetSpells,
    ImmutableArray<Spell> Unwatched,
    ImmutableArray<Overheat> Overheats)
{
    /// <summary>Whether someone found a coat clear since an instant; only that lifts a hold.</summary>
    /// <param name="coat">The coat.</param>
    /// <param name="since">The instant; null where the cause still lasts.</param>
    /// <returns>True where it was found clear.</returns>
    public bool IsClear(Coat coat, DateTimeOffset? since) => IsClear(coat.Layer, coat.Section, since);

    /// <summary>Whether someone found a layer of a section clear since an instant.</summary>
    /// <param name="layer">The layer.</param>
    /// <param name="section">The section.</param>
    /// <param name="since">The instant; null where the cause still lasts.</param>
    /// <returns>True where it was found clear.</returns>
    public bool IsClear(int layer, int section, DateTimeOffset? since) =>
        Story.Inspections.Any(i => i.Found == Found.Clear && i.At >= since && i.Covers(layer, section));
}

/// <summary>A living coat and its windows.</summary>
/// <param name="Coat">The coat.</param>
/// <param name="Windows">Its windows at present.</param>
public sealed record CoatEvidence(Coat Coat, CoatWindows Windows);

/// <summary>A stretch of time.</summary>
/// <param name="From">Its start.</param>
/// <param name="To">Its end; null while it lasts.</param>
public sealed record Spell(DateTimeOffset From, DateTimeOffset? To);

/// <summary>A surface hotter than it may be.</summary>
/// <param name="At">When.</param>
/// <param name="PanelC">How hot [°C].</param>
/// <param name="LimitC">How hot it may be [°C].</param>
public sealed record Overheat(DateTimeOffset At, double PanelC, double LimitC);
