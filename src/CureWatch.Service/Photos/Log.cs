namespace CureWatch.Service.Photos;

internal static partial class Log
{
    [LoggerMessage(3100, LogLevel.Warning, "A picture that is not needed any more could not be taken away; the next start tries again.")]
    public static partial void NotTidied(ILogger logger, Exception exception);
}
