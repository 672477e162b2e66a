namespace CureWatch.Service.Journal;

/// <summary>The kind of an entry as its frame carries it. A number is never given to another kind.</summary>
internal enum EntryKind : byte
{
    EngineStarted = 1,
    ClockReached = 2,
    Reading = 3,
    RefusalsCounted = 4,
    SettingsChanged = 5,
    JobStarted = 6,
    Tapped = 7,
    HandedOver = 8,
    LearningReset = 9,
    WorkPlanned = 10,
    WorkDropped = 11,
    VisitPlanned = 12,
    VisitCancelled = 13,
    PhotoAdded = 14,
    PhotoRemoved = 15,

    /// <summary>Facts: compared, not folded.</summary>
    WarningChanged = 32,
    Ruled = 33,

    /// <summary>The journal's own marks.</summary>
    SegmentSealed = 64,
    JournalClosed = 65,
}
