using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>How an exported job's day lay among the readings: who else was in the shop, and what happened after which reading.</summary>
/// <param name="OpenedAt">When the shop began to watch.</param>
/// <param name="Beside">The jobs of the other cars, without names or notes.</param>
/// <param name="Order">What happened, in order.</param>
internal sealed record LivedDay(DateTimeOffset OpenedAt, ImmutableArray<JobRecord> Beside, ImmutableArray<RecordedEvent> Order)
{
    /// <summary>How far the shop's clock had come: further than its last reading where probes were silent. Null where nobody says.</summary>
    public DateTimeOffset? EndedAt { get; init; }
}

/// <summary>Something that happened.</summary>
/// <param name="Readings">After how many rows of the readings file.</param>
/// <param name="Now">What the present was until then: readings are not all that moves it.</param>
/// <param name="At">When.</param>
/// <param name="Did">What.</param>
/// <param name="Job">To which job: 0 for the exported one, else which of those beside it, from 1.</param>
/// <param name="Tap">Which of that job's taps was told, from 0; null where none was.</param>
internal sealed record RecordedEvent(int Readings, DateTimeOffset Now, DateTimeOffset At, Recorded Did, int Job, int? Tap);

/// <summary>What can happen besides a reading.</summary>
internal enum Recorded
{
    /// <summary>A car's work was begun.</summary>
    Begun,

    /// <summary>A person told something.</summary>
    Told,

    /// <summary>A car left.</summary>
    Left,
}
