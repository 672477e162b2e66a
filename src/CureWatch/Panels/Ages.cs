namespace CureWatch.Panels;

/// <summary>How old is old: what may be let go of, and what may be kept by fewer segments.</summary>
/// <param name="From">What ends by then is let go of.</param>
/// <param name="Old">What ends by then is kept coarsely.</param>
/// <param name="Fresh">What ends after it stays as it came.</param>
public readonly record struct Ages(DateTimeOffset From, DateTimeOffset Old, DateTimeOffset Fresh)
{
    /// <summary>How close together readings are kept that no late one can change any more [1 min]. Source (choice): a bay hardly moves within it.</summary>
    public static readonly TimeSpan Fine = TimeSpan.FromMinutes(1);

    /// <summary>How long a segment gets when it is old [10 min]. Source (choice): sums at its ends stay as they were.</summary>
    public static readonly TimeSpan Coarse = TimeSpan.FromMinutes(10);

    /// <summary>The longest stretch that becomes one segment.</summary>
    /// <param name="end">When it ends.</param>
    /// <returns>The length; zero where nothing may be put together.</returns>
    public TimeSpan SpacingAt(DateTimeOffset end) => end <= Old ? Coarse : end <= Fresh ? Fine : TimeSpan.Zero;
}
