using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>What readings of a clock that runs ahead said of their instant: by that they are known again, until they would come too late.</summary>
internal sealed record ClaimsAhead(ImmutableSortedSet<DateTimeOffset> Claims)
{
    /// <summary>Of a clock that was never seen to run ahead.</summary>
    public static ClaimsAhead None { get; } = new([]);

    public bool Has(DateTimeOffset claim) => Claims.Contains(claim);

    public ClaimsAhead With(DateTimeOffset receivedAt, DateTimeOffset claim)
    {
        ImmutableSortedSet<DateTimeOffset> claims = Claims;
        while (!claims.IsEmpty && receivedAt - claims.Min > ProbeLog.LatestArrival)
        {
            claims = claims.Remove(claims.Min);
        }

        return new ClaimsAhead(claims.Add(claim));
    }
}
