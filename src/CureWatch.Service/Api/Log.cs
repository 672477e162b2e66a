namespace CureWatch.Service.Api;

/// <summary>What this room writes into the log: ids 2300 to 2399.</summary>
internal static partial class Log
{
    [LoggerMessage(2300, LogLevel.Error, "{Method} {Path} failed")]
    public static partial void RequestFailed(ILogger logger, Exception exception, string method, PathString path);

    [LoggerMessage(2301, LogLevel.Error, "Live changes could not be told; they will be with the next change")]
    public static partial void ChangesNotTold(ILogger logger, Exception exception);
}
