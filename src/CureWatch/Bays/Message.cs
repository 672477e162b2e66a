using CureWatch.Curing;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>What comes to the shop's attention.</summary>
public abstract record Message
{
    private Message()
    {
    }

    /// <summary>When it came.</summary>
    public abstract DateTimeOffset At { get; }

    /// <summary>A reading came.</summary>
    /// <param name="Raw">The reading.</param>
    public sealed record ReadingCame(RawReading Raw) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => Raw.ReceivedAt;
    }

    /// <summary>A car's work was begun.</summary>
    /// <param name="Job">The job.</param>
    /// <param name="StartedAt">When it was begun.</param>
    public sealed record JobStarted(Job Job, DateTimeOffset StartedAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => StartedAt;
    }

    /// <summary>A person told something.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="Tap">What was told.</param>
    public sealed record Tapped(string Job, Tap Tap) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => Tap.ReportedAt;
    }

    /// <summary>Time passed, or a due instant was reached.</summary>
    /// <param name="Instant">The present.</param>
    public sealed record ClockReached(DateTimeOffset Instant) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => Instant;
    }
}
