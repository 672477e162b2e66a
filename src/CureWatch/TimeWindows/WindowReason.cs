using CureWatch.Words;

namespace CureWatch.TimeWindows;

/// <summary>Why a window is wider, later or sooner than it would be if all had been measured.</summary>
/// <param name="Kind">What was the matter.</param>
/// <param name="Probe">With which probe.</param>
/// <param name="From">Since when.</param>
/// <param name="To">Until when; null while it lasts.</param>
/// <param name="Text">The same in words.</param>
public sealed record WindowReason(WindowReasonKind Kind, string Probe, DateTimeOffset From, DateTimeOffset? To, Sentence Text)
{
    /// <summary>What a person can do to end it, in words; null where it is over.</summary>
    public Sentence? Ends { get; init; }
}

/// <summary>What may be the matter with a probe.</summary>
public enum WindowReasonKind
{
    /// <summary>It was not heard.</summary>
    Unheard,

    /// <summary>It was heard and not believed.</summary>
    Disbelieved,

    /// <summary>It repeated one value for longer than it can be right.</summary>
    Stuck,

    /// <summary>It and a twin said different things, and nobody can say which is right.</summary>
    Disagreeing,
}
