namespace CureWatch.Service.Book;

/// <summary>What the book logs; ids 2300 to 2399.</summary>
internal static partial class Log
{
    [LoggerMessage(2300, LogLevel.Warning, "The book was doubtful ({Doubt}). It is now {MovedTo}; a new one is written from the journal.")]
    public static partial void MovedAside(ILogger logger, string doubt, string? movedTo);

    [LoggerMessage(2301, LogLevel.Information, "The book is written from the journal.")]
    public static partial void WrittenAnew(ILogger logger);

    [LoggerMessage(2302, LogLevel.Information, "The book catches up with the journal from entry {Sequence}.")]
    public static partial void CatchesUp(ILogger logger, long sequence);

    [LoggerMessage(2303, LogLevel.Information, "The book is level with the journal at entry {Sequence}.")]
    public static partial void IsLevel(ILogger logger, long sequence);

    [LoggerMessage(2304, LogLevel.Error, "The book cannot be written. Nothing is lost: it is tried again in a minute.")]
    public static partial void TriedAgain(ILogger logger, Exception e);

    [LoggerMessage(2305, LogLevel.Error, "The book broke.")]
    public static partial void Broke(ILogger logger, Exception e);

    [LoggerMessage(2306, LogLevel.Critical, "The book broke again although it was new. It is left alone until the next start. Nothing is lost.")]
    public static partial void LeftAlone(ILogger logger, Exception e);
}
