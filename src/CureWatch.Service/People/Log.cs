namespace CureWatch.Service.People;

/// <summary>What is logged of people and screens: ids 2900 to 2999.</summary>
internal static partial class Log
{
    [LoggerMessage(2900, LogLevel.Warning, "A wrong PIN came from {Address}")]
    public static partial void WrongPin(ILogger logger, string address);

    [LoggerMessage(2901, LogLevel.Information, "{Manager} changed who may sign in: {What}")]
    public static partial void StaffChanged(ILogger logger, string? manager, string what);
}
