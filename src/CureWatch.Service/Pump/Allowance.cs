namespace CureWatch.Service.Pump;

/// <summary>
/// A token bucket in one number: when the next one would come if all came evenly. One that comes earlier than that by more than the bucket
/// holds has to wait.
/// </summary>
/// <param name="every">How far two of them are apart in the long run, in ticks of whichever clock is used.</param>
/// <param name="burst">How many may come at once, above 0.</param>
internal sealed class Allowance(long every, int burst)
{
    private readonly long _ahead = every * (burst - 1);
    private long _evenly = long.MinValue / 2;

    /// <summary>Takes one.</summary>
    /// <param name="now">The present.</param>
    /// <returns>The present where one could be taken, else when one can be.</returns>
    public long Take(long now)
    {
        if (_evenly - now > _ahead)
        {
            return _evenly - _ahead;
        }

        _evenly = Math.Max(_evenly, now) + every;
        return now;
    }
}
