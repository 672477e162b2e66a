namespace CureWatch.Service.Alarms;

/// <summary>What the alarm clock logs; ids 2200 to 2299.</summary>
internal static partial class Log
{
    [LoggerMessage(2200, LogLevel.Error, "The alarm for {Due} could not be set.")]
    public static partial void NotArmed(ILogger logger, Exception e, DateTimeOffset? due);
}
