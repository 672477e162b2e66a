namespace CureWatch.Service.Book;

/// <summary>What the book logs; ids 2500 to 2599.</summary>
internal static partial class Log
{
    [LoggerMessage(2500, LogLevel.Warning, "The book was doubtful ({Doubt}). It is now {MovedTo}; a new one is written from the journal.")]
    public static partial void MovedAside(ILogger logger, string doubt, string? movedTo);

    [LoggerMessage(2501, LogLevel.Information, "The book is written from the journal.")]
    public static partial void WrittenAnew(ILogger logger);

    [LoggerMessage(2502, LogLevel.Information, "The book catches up with the journal from entry {Sequence}.")]
    public static partial void CatchesUp(ILogger logger, long sequence);

    [LoggerMessage(2503, LogLevel.Information, "The book is level with the journal at entry {Sequence}.")]
    public static partial void IsLevel(ILogger logger, long sequence);

    [LoggerMessage(2504, LogLevel.Error, "The book cannot be written. Nothing is lost: it is tried again in a minute.")]
    public static partial void TriedAgain(ILogger logger, Exception e);

    [LoggerMessage(2505, LogLevel.Error, "The book broke.")]
    public static partial void Broke(ILogger logger, Exception e);

    [LoggerMessage(2506, LogLevel.Critical, "The book broke again although it was new. It is left alone until the next start.")]
    public static partial void LeftAlone(ILogger logger, Exception e);
}
