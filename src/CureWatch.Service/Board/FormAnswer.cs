using CureWatch.Service.Api;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>How it went with a form.</summary>
/// <param name="Look">The shop after it.</param>
/// <param name="Status">The status that says so.</param>
/// <param name="Faults">Why it was not taken; empty where it was.</param>
internal sealed record FormAnswer(Look Look, int Status, IReadOnlyList<Sentence> Faults)
{
    /// <summary>When it was done, as the form says; null where that cannot be read.</summary>
    public DateTimeOffset? At { get; init; }
}
