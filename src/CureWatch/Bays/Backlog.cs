namespace CureWatch.Bays;

/// <summary>Believed readings that fell into what was settled already, until the climates of their bay are followed anew, once for all of them.</summary>
/// <param name="From">From when on they change the climate.</param>
/// <param name="FollowedAt">When they are followed at the latest.</param>
/// <remarks>
/// Each by itself would have everything since it summed up once more: a probe that sends a quarter of an hour that it stored, the newest reading first,
/// would hold up all others. They wait for whatever people tell, a second at most.
/// </remarks>
public sealed record Backlog(DateTimeOffset From, DateTimeOffset FollowedAt)
{
    /// <summary>How long they wait [1 s]. Source (choice): no bay moves faster.</summary>
    public static readonly TimeSpan Patience = Readings.ProbeLog.Pace;

    /// <summary>With one more.</summary>
    /// <param name="before">Those so far; null where there are none.</param>
    /// <param name="from">From when on it changes the climate.</param>
    /// <param name="now">The present.</param>
    /// <returns>All of them, which wait no longer for it.</returns>
    public static Backlog With(Backlog? before, DateTimeOffset from, DateTimeOffset now) => before is null
        ? new Backlog(from, now + Patience)
        : from < before.From ? before with { From = from } : before;

    /// <summary>Decides which bays are followed anew before a message is taken in.</summary>
    /// <param name="shop">The shop, its present at the message.</param>
    /// <param name="message">The message, no reading. What only notes the time, or counts, comes as batches end: it must change nothing.</param>
    /// <returns>What happened: deadlines may have come nearer, so every coat there is looked at at once.</returns>
    internal static IEnumerable<ShopEvent> Decide(Shop shop, Message message)
    {
        bool isInput = message is not (Message.ClockReached or Message.MessagesRefused);
        return shop.Behind.IsEmpty
            ? []
            : shop.Behind.Where(bay => isInput || shop.Bays[bay].Backlog!.FollowedAt <= shop.Now)
                .SelectMany(bay => CoatReviews.LookAgain(shop, bay).Prepend(new ShopEvent.BacklogFollowed(bay)));
    }
}
