using CureWatch.Panels;
using CureWatch.Words;

namespace CureWatch.Warnings;

/// <summary>What a warning is about.</summary>
/// <param name="Kind">The kind.</param>
public sealed record Subject(WarningKind Kind)
{
    /// <summary>The bay; null where it is about a coat wherever it is.</summary>
    public string? Bay { get; init; }

    /// <summary>The probe, where it is about one.</summary>
    public string? Probe { get; init; }

    /// <summary>The job, where it is about a coat or surface.</summary>
    public string? Job { get; init; }

    /// <summary>The surface, where it is about one.</summary>
    public string? Surface { get; init; }

    /// <summary>The layer, where it is about a coat; else 0.</summary>
    public int Layer { get; init; }

    /// <summary>The section, where it is about a coat; else 0.</summary>
    public int Section { get; init; }

    /// <summary>The place that stands for the air, where it is about a climate.</summary>
    public Place? Air { get; init; }

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

    /// <summary>What was foreseen when it was worded; null of what happens already.</summary>
    public Foretold? Foretold { get; init; }

    /// <summary>
    /// Whether somebody may be woken for it: false where the shop was closed when it was given and nothing anybody can still do helps before the morning,
    /// and of a probe that is only doubted.
    /// </summary>
    public bool Wakes { get; init; } = true;
}

/// <summary>What people were told of something to come.</summary>
/// <param name="Chance">How likely it is [1].</param>
/// <param name="From">When it would begin.</param>
/// <param name="MayBeHelped">Whether anything still helps.</param>
public sealed record Foretold(double Chance, DateTimeOffset From, bool MayBeHelped)
{
    private const double WorthTelling = 0.1;
    private static readonly TimeSpan WorthMoving = TimeSpan.FromMinutes(30);

    /// <summary>Whether something else is foreseen that people should know of: a chance by a tenth, a time by half an hour, or help that there is, or is no more.</summary>
    /// <param name="other">What is foreseen now.</param>
    /// <returns>True where it is worth telling. Source (choice): the figures.</returns>
    public bool DiffersFrom(Foretold other) =>
        Math.Abs(Chance - other.Chance) >= WorthTelling || (From - other.From).Duration() >= WorthMoving || MayBeHelped != other.MayBeHelped;
}
