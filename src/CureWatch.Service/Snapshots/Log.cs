namespace CureWatch.Service.Snapshots;

/// <summary>What is logged of snapshots; ids 2800 to 2899.</summary>
internal static partial class Log
{
    [LoggerMessage(2800, LogLevel.Warning, "No snapshot could be taken. Nothing is lost: the next start reads more of the journal.")]
    public static partial void NotTaken(ILogger logger, Exception e);
}
