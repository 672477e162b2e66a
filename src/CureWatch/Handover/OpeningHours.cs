using System.Collections.Immutable;

namespace CureWatch.Handover;

/// <summary>When the shop is open, in its own time zone.</summary>
/// <param name="Zone">The shop's time zone.</param>
/// <param name="Open">
/// The open stretches of each day of the week, in order and apart; a day that is missing is closed. Null where the shop never said: always open.
/// </param>
public sealed record OpeningHours(TimeZoneInfo Zone, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>? Open)
{
    private const int LongestSearchDays = 3660;

    /// <summary>When a piece of hands-on work is done, if it is begun at an instant and goes on only while the shop is open.</summary>
    /// <param name="from">The instant.</param>
    /// <param name="work">How long the work takes.</param>
    /// <returns>The end of the work, inside opening hours; null where the shop is never open.</returns>
    /// <remarks>Edges: no work at all still waits for the shop to open; a stretch that ends with the work counts as open.</remarks>
    public DateTimeOffset? AfterWork(DateTimeOffset from, TimeSpan work)
    {
        if (Open is null)
        {
            return from + work;
        }

        DateOnly today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(from, Zone).DateTime);
        for (int day = 0; day < LongestSearchDays; day++)
        {
            DateOnly date = today.AddDays(day);
            foreach (OpenStretch stretch in Open.GetValueOrDefault(date.DayOfWeek, []))
            {
                DateTimeOffset opens = Instant(date, stretch.From);
                DateTimeOffset closes = Instant(date, stretch.To);
                DateTimeOffset start = from > opens ? from : opens;
                if (start > closes)
                {
                    continue;
                }

                if (start + work <= closes)
                {
                    return start + work;
                }

                work -= closes - start;
            }
        }

        return null;
    }

    private DateTimeOffset Instant(DateOnly date, TimeSpan sinceMidnight)
    {
        DateTime local = date.ToDateTime(TimeOnly.MinValue) + sinceMidnight;
        while (Zone.IsInvalidTime(local))
        {
            local = local.AddMinutes(1);
        }

        return new DateTimeOffset(local, Zone.GetUtcOffset(local)).ToUniversalTime();
    }
}

/// <summary>A stretch of a day in which the shop is open.</summary>
/// <param name="From">Opens so long after midnight.</param>
/// <param name="To">Closes so long after midnight, after <paramref name="From"/>, up to 24 h.</param>
public readonly record struct OpenStretch(TimeSpan From, TimeSpan To);
