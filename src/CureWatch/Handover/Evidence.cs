using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.TimeWindows;

namespace CureWatch.Handover;

/// <summary>All that is known of one surface when the handover is ruled on.</summary>
/// <param name="Story">What people told.</param>
/// <param name="Coats">The windows of its living coats.</param>
/// <param name="WetSpells">When the coldest panel around it was at or below the condensation temperature.</param>
/// <param name="Unwatched">When it was where nobody measures.</param>
/// <param name="Overheats">When it was hotter than it may be.</param>
public sealed record Evidence(
    SurfaceStory Story,
    ImmutableArray<CoatEvidence> Coats,
    ImmutableArray<Spell> WetSpells,
    ImmutableArray<Spell> Unwatched,
    ImmutableArray<Overheat> Overheats)
{
    /// <summary>What its times assume in place of a probe that is silent, a sentence after a space; empty where none is.</summary>
    public Words.Sentence Assumed { get; init; } = Words.Sentence.None;
}

/// <summary>A living coat and its windows.</summary>
/// <param name="Coat">The coat.</param>
/// <param name="Windows">Its windows at present.</param>
public sealed record CoatEvidence(Coat Coat, CoatWindows Windows);

/// <summary>A surface hotter than it may be.</summary>
/// <param name="At">When.</param>
/// <param name="PanelC">How hot [°C].</param>
/// <param name="LimitC">How hot it may be [°C].</param>
public sealed record Overheat(DateTimeOffset At, double PanelC, double LimitC);
