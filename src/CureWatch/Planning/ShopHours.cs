using System.Collections.Immutable;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>The days of a shop that a plan looks at.</summary>
/// <param name="Now">The present.</param>
/// <param name="Until">How far is looked ahead.</param>
/// <param name="Zone">The shop's time zone.</param>
/// <param name="Days">Its open days from the present one on to beyond the end, in order and apart; none where it never opens.</param>
public sealed record ShopHours(DateTimeOffset Now, DateTimeOffset Until, TimeZoneInfo Zone, ImmutableArray<ShopDay> Days)
{
    /// <summary>Who began a layer finishes it, closing time or not: that is this long after its last wipe [2 h]. Source (choice): the longest a pass takes, and a meal.</summary>
    private static readonly TimeSpan StillThere = TimeSpan.FromHours(2);

    /// <summary>The day that goes on at an instant, or comes next.</summary>
    /// <param name="at">The instant, not before the present.</param>
    /// <returns>The day; null where none comes within sight.</returns>
    public ShopDay? DayAt(DateTimeOffset at) => Days.FirstOrDefault(d => !(d.LocksUp <= at));

    /// <summary>Whether the shop is open all along a stretch.</summary>
    /// <param name="from">Its beginning.</param>
    /// <param name="to">Its end.</param>
    /// <returns>True where one day holds it.</returns>
    public bool IsOpen(DateTimeOffset from, DateTimeOffset to) => Days.Any(d => d.Opens <= from && !(d.LocksUp < to));

    /// <summary>When a piece of work can be begun that has to be done in one day.</summary>
    /// <param name="from">Not before.</param>
    /// <param name="length">How long it takes.</param>
    /// <returns>The first instant from which it fits before a lock-up; null where it fits no day within sight.</returns>
    public DateTimeOffset? Fit(DateTimeOffset from, TimeSpan length)
    {
        foreach (ShopDay day in Days)
        {
            DateTimeOffset begun = from > day.Opens ? from : day.Opens;
            if (!(begun + length > day.LocksUp))
            {
                return begun;
            }
        }

        return null;
    }

    /// <summary>When a layer is begun in the shop's days: in one that holds all of it; what is left of one that is begun is done before people go.</summary>
    /// <param name="from">Not before.</param>
    /// <param name="length">How long it takes.</param>
    /// <param name="begunAt">The last wipe of the layer that this is the rest of; null where it is not begun.</param>
    /// <returns>The instant; the earliest where no day within sight holds it.</returns>
    public DateTimeOffset Place(DateTimeOffset from, TimeSpan length, DateTimeOffset? begunAt) =>
        begunAt is { } begun && (from <= begun + StillThere || IsOpen(from, from)) ? from : Fit(from, length) ?? from;

    /// <summary>An instant as the shop's clock shows it, with the day where it is another.</summary>
    /// <param name="at">The instant; null for one that never comes.</param>
    /// <returns>The words.</returns>
    public Sentence Clock(DateTimeOffset? at) => at is { } instant ? WallClock.Of(instant, Now, Zone) : $"never";

    /// <summary>A stretch as the shop's clock shows it, the day of its end only where that is another.</summary>
    /// <param name="from">Its beginning; null for one that never comes.</param>
    /// <param name="to">Its end.</param>
    /// <returns>The words, such as <c>Tue 09:15 to 09:45</c>.</returns>
    public Sentence Span(DateTimeOffset? from, DateTimeOffset to) => $"{Clock(from)} to {WallClock.Of(to, from ?? Now, Zone)}";
}

/// <summary>A day of a shop, from its first opening to its last closing.</summary>
/// <param name="Opens">When it opens.</param>
/// <param name="LocksUp">When it closes for the night; null where it never does.</param>
public sealed record ShopDay(DateTimeOffset Opens, DateTimeOffset? LocksUp);
