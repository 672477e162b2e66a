namespace CureWatch.Service.Backups;

/// <summary>What the nightly backup logs; ids 2600 to 2699.</summary>
internal static partial class Log
{
    [LoggerMessage(2600, LogLevel.Information, "A backup was made and read back: {Path}, {Bytes} bytes, up to entry {Sequence}.")]
    public static partial void Made(ILogger logger, string path, long bytes, long sequence);

    [LoggerMessage(2601, LogLevel.Error, "The nightly backup failed and is tried again in a quarter of an hour: {Fault}")]
    public static partial void Failed(ILogger logger, string fault);

    [LoggerMessage(2602, LogLevel.Information, "The backup {Path} need not be kept any more.")]
    public static partial void Deleted(ILogger logger, string path);

    [LoggerMessage(2603, LogLevel.Information, "The entries {First} to {Last} of the journal are in {Archive} and here no more.")]
    public static partial void Retired(ILogger logger, long first, long last, string archive);
}
