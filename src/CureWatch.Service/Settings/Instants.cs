namespace CureWatch.Service.Settings;

/// <summary>
/// Instants as people and probes write them: ISO 8601 in its extended form, with an offset or Z. Written out by hand because a
/// readings file holds a million of them and the general parser takes several times as long.
/// </summary>
internal static class Instants
{
    public const string Allowed = "a time with offset or Z, such as 2026-03-02T08:00:00+01:00, from 1900 to 2199";

    private const int OldestYear = 1900;
    private const int NewestYear = 2199;

    /// <returns>False where the text is no instant; else the instant in UTC.</returns>
    public static bool TryParse(ReadOnlySpan<char> text, out DateTimeOffset instant)
    {
        instant = default;
        if (text.Length < 17 || text[4] != '-' || text[7] != '-' || text[10] != 'T' || text[13] != ':')
        {
            return false;
        }

        int year = Digits(text[..4]), month = Digits(text[5..7]), day = Digits(text[8..10]);
        int hour = Digits(text[11..13]), minute = Digits(text[14..16]);
        if (year is not (>= OldestYear and <= NewestYear) || month is not (>= 1 and <= 12) || hour is not (>= 0 and <= 23)
            || minute is not (>= 0 and <= 59) || day < 1 || day > DateTime.DaysInMonth(year, month))
        {
            return false;
        }

        ReadOnlySpan<char> rest = text[16..];
        if (!TakeSeconds(ref rest, out long ticks) || !TryOffset(rest, out int offsetMinutes))
        {
            return false;
        }

        ticks += new DateTime(year, month, day, hour, minute, 0, DateTimeKind.Utc).Ticks;
        instant = new DateTimeOffset(ticks - (offsetMinutes * TimeSpan.TicksPerMinute), TimeSpan.Zero);
        return true;
    }

    private static bool TakeSeconds(ref ReadOnlySpan<char> rest, out long ticks)
    {
        ticks = 0;
        if (rest[0] != ':')
        {
            return true;
        }

        int seconds = rest.Length < 4 ? -1 : Digits(rest[1..3]);
        if (seconds is not (>= 0 and <= 59))
        {
            return false;
        }

        ticks = seconds * TimeSpan.TicksPerSecond;
        rest = rest[3..];
        return rest[0] != '.' || TakeFraction(ref rest, ref ticks);
    }

    /// <summary>Takes up to nine digits; what is finer than a tick (100 ns) is dropped.</summary>
    private static bool TakeFraction(ref ReadOnlySpan<char> rest, ref long ticks)
    {
        int end = 1;
        long unit = TimeSpan.TicksPerSecond;
        while (end < rest.Length && char.IsAsciiDigit(rest[end]))
        {
            unit /= 10;
            ticks += (rest[end] - '0') * unit;
            end++;
        }

        rest = rest[end..];
        return end is > 1 and <= 10 && !rest.IsEmpty;
    }

    private static bool TryOffset(ReadOnlySpan<char> text, out int minutes)
    {
        minutes = 0;
        if (text is "Z")
        {
            return true;
        }

        if (text.Length != 6 || text[0] is not ('+' or '-') || text[3] != ':')
        {
            return false;
        }

        int hour = Digits(text[1..3]), minute = Digits(text[4..6]);
        minutes = ((hour * 60) + minute) * (text[0] == '-' ? -1 : 1);
        return hour is >= 0 and <= 14 && minute is >= 0 and <= 59 && minutes is >= -840 and <= 840;
    }

    /// <returns>The number, or −1 where a character is no digit.</returns>
    private static int Digits(ReadOnlySpan<char> text)
    {
        int number = 0;
        foreach (char c in text)
        {
            if (!char.IsAsciiDigit(c))
            {
                return -1;
            }

            number = (number * 10) + (c - '0');
        }

        return number;
    }
}
