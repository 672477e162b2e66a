namespace CureWatch.Service.Backups;

/// <summary>What the nightly backup and the watch over the journal log; ids 2600 to 2699.</summary>
internal static partial class Log
{
    [LoggerMessage(2600, LogLevel.Information, "A backup was made and read back: {Path}, {Bytes} bytes, up to entry {Sequence}.")]
    public static partial void Made(ILogger logger, string path, long bytes, long sequence);

    [LoggerMessage(2601, LogLevel.Error, "The nightly backup failed and is tried again in a quarter of an hour: {Fault}")]
    public static partial void Failed(ILogger logger, string fault);

    [LoggerMessage(2602, LogLevel.Information, "The backup {Path} need not be kept any more.")]
    public static partial void Deleted(ILogger logger, string path);

    [LoggerMessage(2604, LogLevel.Critical, "A full segment of the journal is damaged: {Path}: {Wrong}.")]
    public static partial void SegmentDamaged(ILogger logger, string path, string wrong);

    [LoggerMessage(2605, LogLevel.Warning, "A segment of the journal that was damaged is sound again: {Path}.")]
    public static partial void SegmentSound(ILogger logger, string path);

    [LoggerMessage(2606, LogLevel.Error, "The full segments of the journal could not be looked at.")]
    public static partial void NotLooked(ILogger logger, Exception e);

    [LoggerMessage(2607, LogLevel.Warning, "The newest backup is gone, or of a time that is yet to come; where one is due instead, it is made: {Path}.")]
    public static partial void NotTheNewest(ILogger logger, string path);

    [LoggerMessage(2608, LogLevel.Error, "Whether a backup is due could not be looked at.")]
    public static partial void NotKept(ILogger logger, Exception e);

    [LoggerMessage(2609, LogLevel.Warning, "The backup {Path} was deleted before its time, {Bytes} bytes: else there would be no room for the next one.")]
    public static partial void LetGo(ILogger logger, string path, long bytes);

    [LoggerMessage(2610, LogLevel.Warning, "All older backups stay: {File} is not what it was, and one of them may have it.")]
    public static partial void AllStay(ILogger logger, string file);

    [LoggerMessage(2603, LogLevel.Information, "The entries {First} to {Last} of the journal are in {Archive} and here no more.")]
    public static partial void Retired(ILogger logger, long first, long last, string archive);
}
