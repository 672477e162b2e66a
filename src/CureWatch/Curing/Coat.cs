namespace CureWatch.Curing;

/// <summary>One layer of one product on one section of a surface, as people told it.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer, from 1.</param>
/// <param name="Section">The section, from 1.</param>
/// <param name="StartedAt">Its very first wipe: what happens to the coat from here on is the coat's.</param>
/// <param name="AppliedAt">The end of the wipe-on: the opening of level-off counts from here.</param>
public sealed record Coat(Surface Surface, int Layer, int Section, DateTimeOffset StartedAt, DateTimeOffset AppliedAt)
{
    /// <summary>The batch of the product; null where nobody knows it.</summary>
    public string? Batch { get; init; }

    /// <summary>The first wipe of the evaporation clock that runs now: a re-wet starts a new one.</summary>
    public DateTimeOffset FirstWipeAt { get; init; } = StartedAt; // a copy with another StartedAt keeps this one

    /// <summary>The last wipe of the evaporation clock that runs now.</summary>
    public DateTimeOffset LastWipeAt { get; init; } = AppliedAt;

    /// <summary>When it was seen to have flashed; null where nobody told.</summary>
    public DateTimeOffset? FlashedAt { get; init; }

    /// <summary>When it was levelled; null where nobody told.</summary>
    public DateTimeOffset? LevelledAt { get; init; }

    /// <summary>When it was last reworked; null where it was not.</summary>
    public DateTimeOffset? ReworkedAt { get; init; }

    /// <summary>When it was polished off; null where it lives.</summary>
    public DateTimeOffset? EndedAt { get; init; }

    /// <summary>Whether no layer is on it and none is planned, so that recoat concerns nobody.</summary>
    public bool IsOutermost => Layer >= Surface.Layers && CoveredAt is null;

    /// <summary>When the layer over it was begun; null where there is none.</summary>
    public DateTimeOffset? CoveredAt { get; init; }
}
