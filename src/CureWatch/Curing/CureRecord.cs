using System.Collections.Immutable;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>The climate one coat has lived through, as one law sees it.</summary>
/// <param name="Law">The rate law.</param>
/// <param name="Stretches">The stretches, each starting where the one before ends, the last ending at the present.</param>
public sealed record CureRecord(RateLaw Law, ImmutableArray<Stretch> Stretches)
{
    /// <summary>The present.</summary>
    public DateTimeOffset End => Stretches[^1].To;

    /// <summary>Progress between two instants.</summary>
    /// <param name="from">The first, not before the record begins.</param>
    /// <param name="to">The second; what lies after the present earns nothing.</param>
    /// <returns>The progress.</returns>
    public Credit Between(DateTimeOffset from, DateTimeOffset to)
    {
        Credit sum = default;
        foreach (Stretch stretch in Stretches)
        {
            DateTimeOffset start = from > stretch.From ? from : stretch.From;
            DateTimeOffset end = to < stretch.To ? to : stretch.To;
            if (start < end)
            {
                sum += stretch.Between(start, end);
            }
        }

        return sum;
    }

    /// <summary>When progress since an instant reaches an amount.</summary>
    /// <param name="start">The instant, not before the record begins.</param>
    /// <param name="hours">The amount [reference h], above 0.</param>
    /// <param name="pace">The pace.</param>
    /// <returns>The instant; null where it is not reached by the present.</returns>
    public DateTimeOffset? ReachedAt(DateTimeOffset start, double hours, Pace pace)
    {
        foreach (Stretch stretch in Stretches)
        {
            if (stretch.To <= start)
            {
                continue;
            }

            DateTimeOffset from = start > stretch.From ? start : stretch.From;
            if (stretch.ReachedAt(from, hours, pace) is { } at)
            {
                return at;
            }

            hours -= stretch.Between(from, stretch.To).Of(pace);
        }

        return null;
    }
}
