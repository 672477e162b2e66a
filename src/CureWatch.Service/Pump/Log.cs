namespace CureWatch.Service.Pump;

/// <summary>What the pump logs; ids 2000 to 2099.</summary>
internal static partial class Log
{
    [LoggerMessage(2000, LogLevel.Error, "A {Kind} was skipped: it broke something.")]
    public static partial void ArrivalSkipped(ILogger logger, Exception e, string kind);

    [LoggerMessage(2002, LogLevel.Error, "A {Kind} was not stored: the key that seals what names a person cannot be written.")]
    public static partial void KeyNotMade(ILogger logger, Exception e, string kind);

    [LoggerMessage(2007, LogLevel.Error, "The tap of {Button} was stored without name and note: there is no key that seals them.")]
    public static partial void TapUnnamed(ILogger logger, Exception e, string button);

    [LoggerMessage(2008, LogLevel.Error, "{File} is not the key it was: names and notes of its job are not shown, and none is sealed with it. Put it back from a backup and start again; deleted, they are erased.")]
    public static partial void KeyDoesNotFit(ILogger logger, string file);

    [LoggerMessage(2009, LogLevel.Error, "None of the keys of {Jobs} jobs is in {Folder}: what they sealed is not shown. Put them back from a backup before more is told, and start again; where they were destroyed on purpose nothing need be done.")]
    public static partial void KeysAreLost(ILogger logger, int jobs, string folder);

    [LoggerMessage(2003, LogLevel.Warning, "The clock of probe {Probe} in {Bay} is ahead of ours by {Ahead}: what it says is refused until one of the two is set right.")]
    public static partial void DeviceIsAhead(ILogger logger, string bay, string probe, TimeSpan ahead);

    [LoggerMessage(2001, LogLevel.Critical, "The journal cannot be written. Nothing more is taken or acknowledged until it can; it is tried again and again.")]
    public static partial void JournalFailed(ILogger logger, Exception e);

    [LoggerMessage(2005, LogLevel.Warning, "The journal can be written again: what comes is taken.")]
    public static partial void JournalGoesOn(ILogger logger);

    [LoggerMessage(2006, LogLevel.Warning, "The mark of an orderly stop could not be written. Nothing is lost.")]
    public static partial void JournalNotClosed(ILogger logger, Exception e);
}
