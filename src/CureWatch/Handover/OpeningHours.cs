using System.Collections.Immutable;
using CureWatch.Planning;

namespace CureWatch.Handover;

/// <summary>When the shop is open, in its own time zone.</summary>
/// <param name="Zone">The shop's time zone.</param>
/// <param name="Open">The open stretches of each day of the week, in order and apart; a day that is missing is closed.</param>
public sealed record OpeningHours(TimeZoneInfo Zone, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>> Open)
{
    /// <summary>Ten years of days: work that takes longer has no end. Source (choice).</summary>
    private const int LongestSearchDays = 3660;

    private const int DaysOfAWeek = 7;

    /// <summary>A shop that never closes.</summary>
    /// <param name="zone">The shop's time zone.</param>
    /// <returns>Every day of the week, from 00:00 to 24:00.</returns>
    public static OpeningHours Always(TimeZoneInfo zone) => new(
        zone,
        Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => ImmutableArray.Create(OpenStretch.WholeDay)));

    /// <summary>When a piece of hands-on work is done, if it is begun at an instant and goes on only while the shop is open.</summary>
    /// <param name="from">The instant.</param>
    /// <param name="work">How long the work takes.</param>
    /// <returns>The end of the work, inside opening hours; null where the shop is never open.</returns>
    /// <remarks>Edges: no work at all still waits for the shop to open; a stretch that ends with the work counts as open.</remarks>
    public DateTimeOffset? AfterWork(DateTimeOffset from, TimeSpan work)
    {
        DateOnly today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(from, Zone).DateTime);
        for (int day = 0; day < LongestSearchDays; day++)
        {
            DateOnly date = today.AddDays(day);
            foreach (OpenStretch stretch in StretchesOf(date))
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

    /// <summary>The last instant at which a piece of hands-on work can be begun that has to be done by another.</summary>
    /// <param name="by">When it has to be done.</param>
    /// <param name="work">How long the work takes.</param>
    /// <returns>
    /// The last instant from which <see cref="AfterWork"/> is not later than <paramref name="by"/>; null where the shop is never open long enough.
    /// </returns>
    public DateTimeOffset? LastStart(DateTimeOffset by, TimeSpan work)
    {
        DateOnly last = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(by, Zone).DateTime);
        for (int day = 0; day < LongestSearchDays; day++)
        {
            DateOnly date = last.AddDays(-day);
            foreach (OpenStretch stretch in StretchesOf(date).Reverse())
            {
                DateTimeOffset opens = Instant(date, stretch.From);
                DateTimeOffset closes = Instant(date, stretch.To);
                DateTimeOffset end = closes < by ? closes : by;
                if (end < opens)
                {
                    continue;
                }

                if (end - opens >= work)
                {
                    return end - work;
                }

                work -= end - opens;
            }
        }

        return null;
    }

    /// <summary>The shop's day that goes on at an instant, or comes next.</summary>
    /// <param name="now">The instant.</param>
    /// <returns>From the first opening to the last closing of that day; null where the shop is never open.</returns>
    /// <remarks>Edges: a pause at noon is part of the day; what goes on past midnight is the evening before's, whatever else the next date has.</remarks>
    public ShopDay? DayAt(DateTimeOffset now)
    {
        DateOnly today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, Zone).DateTime), first = today;
        while (GoesOnInto(first) && (first == today || StretchesOf(first).Length == 1))
        {
            first = first.AddDays(-1);
            if (first < today.AddDays(-DaysOfAWeek))
            {
                return new ShopDay(Instant(today, TimeSpan.Zero), null);
            }
        }

        for (DateOnly date = first; date <= today.AddDays(DaysOfAWeek); date = date.AddDays(1))
        {
            if (StretchesOf(date)[(GoesOnInto(date) ? 1 : 0)..] is [var own, ..] && ClosingFrom(date) is var locksUp && locksUp > now)
            {
                return new ShopDay(Instant(date, own.From), locksUp);
            }
        }

        return null;
    }

    private DateTimeOffset ClosingFrom(DateOnly date)
    {
        TimeSpan to = StretchesOf(date)[^1].To;
        while (to == OpenStretch.WholeDay.To && GoesOnInto(date.AddDays(1)))
        {
            date = date.AddDays(1);
            to = StretchesOf(date)[0].To;
        }

        return Instant(date, to);
    }

    /// <summary>Whether a date begins with what is left of the evening before.</summary>
    private bool GoesOnInto(DateOnly date) =>
        StretchesOf(date) is [{ From: var from }, ..] && from == TimeSpan.Zero && StretchesOf(date.AddDays(-1)) is [.., { To: var to }] && to == OpenStretch.WholeDay.To;

    private ImmutableArray<OpenStretch> StretchesOf(DateOnly date) => Open.GetValueOrDefault(date.DayOfWeek, []);

    /// <remarks>
    /// A time that the clocks skip comes back from the zone as another, whatever the zone's rules call summer and what standard time.
    /// </remarks>
    private DateTimeOffset Instant(DateOnly date, TimeSpan sinceMidnight)
    {
        DateTime local = date.ToDateTime(TimeOnly.MinValue) + sinceMidnight;
        while (TimeZoneInfo.ConvertTime(At(local), Zone).DateTime != local)
        {
            local = local.AddMinutes(1);
        }

        return At(local).ToUniversalTime();

        DateTimeOffset At(DateTime wallClock) => new(wallClock, Zone.GetUtcOffset(wallClock));
    }
}

/// <summary>A stretch of a day in which the shop is open, as a wall clock shows it.</summary>
/// <param name="From">Opens at: time since 00:00, from zero.</param>
/// <param name="To">Closes at: time since 00:00, after <paramref name="From"/>, up to 24 hours.</param>
/// <remarks>
/// Spans and not <see cref="TimeOnly"/>, which cannot say 24:00. The default opens and closes at 00:00, so it is never open.
/// On a day on which the clocks change, the stretch is what the wall clock shows, not time that has passed.
/// </remarks>
public readonly record struct OpenStretch(TimeSpan From, TimeSpan To)
{
    /// <summary>From 00:00 to 24:00.</summary>
    public static OpenStretch WholeDay => new(TimeSpan.Zero, TimeSpan.FromDays(1));
}
