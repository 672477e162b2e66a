namespace CureWatch.Service.Book;

/// <summary>Instants as the book stores them: whole milliseconds since 1970, UTC.</summary>
internal static class UnixMs
{
    public static DateTimeOffset? Instant(long? milliseconds) =>
        milliseconds is { } known ? DateTimeOffset.FromUnixTimeMilliseconds(known) : null;
}
