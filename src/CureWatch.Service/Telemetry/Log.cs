namespace CureWatch.Service.Telemetry;

/// <summary>What telemetry logs; ids 2700 to 2799.</summary>
internal static partial class Log
{
    [LoggerMessage(2700, LogLevel.Warning, "The collector {Address} does not take what it is sent. It is tried again as ever, and told when it does: {Reason}")]
    public static partial void CollectorFails(ILogger logger, Uri address, string reason);

    [LoggerMessage(2701, LogLevel.Information, "The collector {Address} takes what it is sent again.")]
    public static partial void CollectorReached(ILogger logger, Uri address);
}
