using CureWatch.Panels;
using CureWatch.Words;

namespace CureWatch.Warnings;

/// <summary>What a warning is about.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Bay">The bay; null where it is about a coat wherever it is.</param>
/// <param name="Probe">The probe, where it is about one.</param>
/// <param name="Job">The job, where it is about a coat or surface.</param>
/// <param name="Surface">The surface, where it is about one.</param>
/// <param name="Layer">The layer, where it is about a coat; else 0.</param>
/// <param name="Section">The section, where it is about a coat; else 0.</param>
/// <param name="Air">The place that stands for the air, where it is about a climate.</param>
public sealed record Subject(
    WarningKind Kind, string? Bay, string? Probe, string? Job, string? Surface, int Layer, int Section, Place? Air = null)
{
    /// <summary>What does the harm, where that tells one warning from another; else null.</summary>
    public string? Harm { get; init; }
}

/// <summary>A warning a person was given. It is never unsaid.</summary>
/// <param name="Subject">What it is about.</param>
/// <param name="Surface">The surface that is worst off; null where it is about no surface.</param>
/// <param name="RaisedAt">When it was given.</param>
/// <param name="ClearedAt">When it was over; null while it stands.</param>
/// <param name="Lead">How long before the harm it was given; null where that can't be said.</param>
public sealed record Warning(Subject Subject, string? Surface, DateTimeOffset RaisedAt, DateTimeOffset? ClearedAt, TimeSpan? Lead)
{
    /// <summary>What brought it about this time, where that says more than its kind; else null.</summary>
    public Sentence? Detail { get; init; }

    /// <summary>
    /// Whether somebody may be woken for it: false where the shop was closed when it was given and nothing anybody can still do helps before the morning,
    /// and of a probe that is only doubted.
    /// </summary>
    public bool Wakes { get; init; } = true;
}
