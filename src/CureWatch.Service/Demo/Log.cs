namespace CureWatch.Service.Demo;

/// <summary>What the demo logs. Ids 2600 to 2699.</summary>
internal static partial class Log
{
    [LoggerMessage(2600, LogLevel.Warning, "The demo's {Act} of {At:u} was refused: {Refusal}")]
    public static partial void ActRefused(ILogger log, string act, DateTimeOffset at, string refusal);

    [LoggerMessage(
        2601,
        LogLevel.Information,
        "The demo's day is over. The shop goes on at a wall clock's pace; the grey estate waits to be handed over.")]
    public static partial void StoryEnded(ILogger log);

    [LoggerMessage(2602, LogLevel.Critical, "The demo cannot go on.")]
    public static partial void DemoBroke(ILogger log, Exception exception);
}
