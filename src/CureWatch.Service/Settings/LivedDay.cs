using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Planning;

namespace CureWatch.Service.Settings;

/// <summary>How an exported job's day lay among the readings: who else was in the shop, and what happened after which reading.</summary>
/// <param name="OpenedAt">When the shop began to watch.</param>
/// <param name="Beside">The jobs of the other cars, without names or notes.</param>
/// <param name="Order">What happened, in order.</param>
internal sealed record LivedDay(DateTimeOffset OpenedAt, ImmutableArray<JobRecord> Beside, ImmutableArray<RecordedEvent> Order)
{
    /// <summary>How far the shop's clock had come: further than its last reading where probes were silent. Null where nobody says.</summary>
    public DateTimeOffset? EndedAt { get; init; }

    /// <summary>The work other than coating that was planned, each time as it was planned then; without names or notes.</summary>
    public ImmutableArray<PlannedWork> Works { get; init; } = [];

    /// <summary>When cars were planned to come and to be begun, where that was planned otherwise after they were opened.</summary>
    public ImmutableArray<Visit> Visits { get; init; } = [];

    /// <summary>When the exported car was to come as it was opened: what was planned later comes in the order it did.</summary>
    public Visit? OpenedWith { get; init; }
}

/// <summary>Something that happened.</summary>
/// <param name="Readings">After how many rows of the readings file.</param>
/// <param name="Now">What the present was until then: readings are not all that moves it.</param>
/// <param name="At">When.</param>
/// <param name="Did">What.</param>
/// <param name="Job">To which job: 0 for the exported one, else which of those beside it, from 1.</param>
/// <param name="Tap">Which of that job's taps was told, from 0; null where none was.</param>
internal sealed record RecordedEvent(int Readings, DateTimeOffset Now, DateTimeOffset At, Recorded Did, int Job, int? Tap)
{
    /// <summary>Which of the day's works was planned or dropped, or which of its visits was planned, from 0; null where none was.</summary>
    public int? Plan { get; init; }
}

/// <summary>What can happen besides a reading.</summary>
internal enum Recorded
{
    /// <summary>A car's work was begun.</summary>
    Begun,

    /// <summary>A person told something.</summary>
    Told,

    /// <summary>A car left.</summary>
    Left,

    /// <summary>Work was planned, or planned otherwise.</summary>
    Planned,

    /// <summary>Planned work was dropped.</summary>
    Dropped,

    /// <summary>It was planned otherwise when a car comes and is begun.</summary>
    Visited,

    /// <summary>A car that was to come does not.</summary>
    Cancelled,
}
