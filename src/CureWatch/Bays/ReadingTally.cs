using System.Collections.Immutable;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Readings believed and not.</summary>
/// <param name="Accepted">How many were believed.</param>
/// <param name="Rejected">How many were not, by reason.</param>
public sealed record ReadingTally(int Accepted, ImmutableSortedDictionary<Disbelief, int> Rejected)
{
    /// <summary>The tally with refused messages more.</summary>
    /// <param name="counts">How many, by reason.</param>
    /// <returns>The tally.</returns>
    public ReadingTally With(ImmutableArray<(Disbelief Why, int Count)> counts) => this with
    {
        Rejected = counts.Aggregate(Rejected, (sum, c) => sum.SetItem(c.Why, sum.GetValueOrDefault(c.Why) + c.Count)),
    };

    /// <summary>No reading yet.</summary>
    public static ReadingTally None { get; } = new(0, ImmutableSortedDictionary<Disbelief, int>.Empty);
}
