using System.Collections.Immutable;
using CureWatch.Panels;

namespace CureWatch.Curing;

/// <summary>Everything people told about one surface, put in order.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Coats">Its coats by section and layer, polished-off ones included.</param>
/// <param name="Wettings">Water that touched it, in order.</param>
/// <param name="Washings">When it was washed, in order.</param>
/// <param name="Inspections">What was found when it was looked at, in order.</param>
/// <param name="Untimely">Taps that were told long after, or changed what had been told.</param>
/// <param name="Moves">Where it went, in order.</param>
public sealed record SurfaceStory(
    Surface Surface,
    ImmutableArray<Coat> Coats,
    ImmutableArray<Wetting> Wettings,
    ImmutableArray<DateTimeOffset> Washings,
    ImmutableArray<Inspection> Inspections,
    ImmutableArray<Untimely> Untimely,
    ImmutableArray<Move> Moves)
{
    /// <summary>When a lamp was over it, in order.</summary>
    public ImmutableArray<Spell> Lamps { get; init; } = [];

    /// <summary>When one was over each of its sections, in order; empty where there never was one.</summary>
    public ImmutableArray<ImmutableArray<Spell>> SectionLamps { get; init; } = [];

    /// <summary>Its temperature as people read it by hand, in order; only where they named the surface.</summary>
    public ImmutableArray<OwnReading> ReadByHand { get; init; } = [];

    /// <summary>Its temperature as people read it by hand, in order, the whole car's with it.</summary>
    public ImmutableArray<PanelSpot> Spots { get; init; } = [];

    /// <summary>Whether a lamp was over some of its sections and not over others.</summary>
    public bool HasLampOverAPart => SectionLamps.Any(l => !l.SequenceEqual(SectionLamps[0]));

    /// <summary>Whether the clocks of its sections run in other ways.</summary>
    public bool DiffersBySection => HasLampOverAPart || Wettings.Any(w => w.Section is not null);

    /// <summary>A lamp over it with an end. Where one walks from section to section, a reading that falls tells of the section it was taken on only.</summary>
    /// <param name="lamp">The lamp.</param>
    /// <param name="own">The surface's own readings, in order.</param>
    /// <returns>The spell; its end may lie in the future while the lamp burns.</returns>
    public Spell Ended(Spell lamp, IReadOnlyList<OwnReading> own) => lamp.Ended(HasLampOverAPart ? [] : own);

    /// <summary>Whether its temperature has a history of its own.</summary>
    public bool HasOwnHeat => !Spots.IsEmpty || !Lamps.IsEmpty;

    /// <summary>The coats that were not polished off.</summary>
    public IEnumerable<Coat> Living => Coats.Where(c => c.EndedAt is null);

    /// <summary>Whether someone found a layer of a section clear since an instant; only that lifts a hold.</summary>
    /// <param name="layer">The layer.</param>
    /// <param name="section">The section.</param>
    /// <param name="since">The instant; null where the cause still lasts.</param>
    /// <returns>True where it was found clear.</returns>
    public bool IsFoundClear(int layer, int section, DateTimeOffset? since) =>
        Inspections.Any(i => i.Found == Found.Clear && i.At >= since && i.Covers(layer, section));

    /// <summary>When a layer was last polished off a section.</summary>
    /// <param name="layer">The layer.</param>
    /// <param name="section">The section.</param>
    /// <returns>The instant; null where it is on, or never was.</returns>
    public DateTimeOffset? PolishedOffAt(int layer, int section) => Coats.LastOrDefault(c => c.Layer == layer && c.Section == section)?.EndedAt;

    /// <summary>Whether a planned layer has still to go on a section: it is not on, and nobody found the section clear without it.</summary>
    /// <param name="layer">The layer.</param>
    /// <param name="section">The section.</param>
    /// <returns>True where it is missing.</returns>
    public bool IsMissing(int layer, int section) =>
        !Living.Any(c => c.Layer == layer && c.Section == section)
        && !(PolishedOffAt(layer, section) is { } ended ? IsFoundClear(layer, section, ended) : IsFoundClearByName(layer, section));

    /// <summary>All that has still to go on, the lowest layers first.</summary>
    /// <returns>The layers and sections.</returns>
    public IEnumerable<(int Layer, int Section)> Missing() =>
        from layer in Enumerable.Range(1, Surface.Layers)
        from section in Enumerable.Range(1, Surface.Sections)
        where IsMissing(layer, section)
        select (layer, section);

    /// <summary>Whether a planned layer still has to go over a coat.</summary>
    /// <param name="coat">The coat, one of this surface's.</param>
    /// <returns>False too where somebody found it clear without that layer.</returns>
    public bool AwaitsLayerOver(Coat coat) =>
        coat.Layer < Surface.Layers && coat.CoveredAt is null && IsMissing(coat.Layer + 1, coat.Section);

    /// <summary>A look at another layer says nothing of one that never was there.</summary>
    private bool IsFoundClearByName(int layer, int section) =>
        Inspections.Any(i => i.Found == Found.Clear && i.Layer == layer && i.Covers(layer, section));
}

/// <summary>A look at a surface.</summary>
/// <param name="At">When.</param>
/// <param name="Found">What was found.</param>
/// <param name="Layer">The layer looked at; null for all.</param>
/// <param name="Section">The section looked at; null for all.</param>
public sealed record Inspection(DateTimeOffset At, Found Found, int? Layer, int? Section)
{
    /// <summary>Whether it looked at a coat.</summary>
    /// <param name="layer">The coat's layer.</param>
    /// <param name="section">The coat's section.</param>
    /// <returns>True where the coat was looked at.</returns>
    public bool Covers(int layer, int section) => (Layer ?? layer) == layer && (Section ?? section) == section;
}

/// <summary>A tap that was told long after it was done, or that changed what had been told.</summary>
/// <param name="Tap">The tap.</param>
/// <param name="Corrected">The tap it replaced; null where it was only late.</param>
/// <param name="On">What it was about, section by section; none where the surface does not have its section.</param>
public sealed record Untimely(Tap Tap, Tap? Corrected, ImmutableArray<WorkedOn> On)
{
    /// <summary>Whether it moves a clock only where the sheet credits what a lamp does.</summary>
    public bool IsOfALamp { get; init; }

    /// <summary>How late a tap may be told. Source (choice): gloves off, phone out, after a whole pass.</summary>
    public static readonly TimeSpan Limit = TimeSpan.FromMinutes(15);

    /// <summary>How long a tap may be taken back as if it had never been told. Source (choice): long enough to see the slip, too short to rely on it.</summary>
    public static readonly TimeSpan UndoLimit = TimeSpan.FromMinutes(2);
}

/// <summary>What an act was about: the layer that was named, else as <see cref="Taps"/> reads it.</summary>
/// <param name="Layer">The layer.</param>
/// <param name="Section">The section.</param>
public readonly record struct WorkedOn(int Layer, int Section);

/// <summary>A surface that went somewhere.</summary>
/// <param name="At">When.</param>
/// <param name="ToBay">The bay, or a place nobody watches.</param>
public sealed record Move(DateTimeOffset At, string ToBay);
