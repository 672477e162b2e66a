using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Learning;
using CureWatch.Planning;
using CureWatch.Products;
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
        /// <summary>What its coats were begun with where they were first lived through; null where that is not told.</summary>
        public ImmutableDictionary<CoatKey, Learnt>? Begun { get; init; }

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

    /// <summary>A car left.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="LeftAt">When.</param>
    public sealed record CarLeft(string Job, DateTimeOffset LeftAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => LeftAt;
    }

    /// <summary>The shop was set up otherwise.</summary>
    /// <param name="Plan">The shop as it is set up from now on.</param>
    /// <param name="ChangedAt">When.</param>
    public sealed record PlanChanged(ShopPlan Plan, DateTimeOffset ChangedAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => ChangedAt;
    }

    /// <summary>A product sheet came.</summary>
    /// <param name="Sheet">The sheet; one whose product and revision are known already changes nothing.</param>
    /// <param name="AddedAt">When.</param>
    public sealed record SheetAdded(ProductSheet Sheet, DateTimeOffset AddedAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => AddedAt;
    }

    /// <summary>Messages came that were no readings.</summary>
    /// <param name="Counts">How many, by reason.</param>
    /// <param name="CountedAt">When they were counted.</param>
    public sealed record MessagesRefused(ImmutableArray<(Disbelief Why, int Count)> Counts, DateTimeOffset CountedAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => CountedAt;
    }

    /// <summary>Somebody had what was learnt about a product start anew.</summary>
    /// <param name="Product">The product, all its revisions.</param>
    /// <param name="Bay">Only what concerns this bay; null for all.</param>
    /// <param name="ResetAt">When.</param>
    public sealed record LearningReset(string Product, string? Bay, DateTimeOffset ResetAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => ResetAt;
    }

    /// <summary>Somebody planned work other than coating, or planned it otherwise.</summary>
    /// <param name="Work">The work; one with the id of another takes its place.</param>
    /// <param name="PlannedAt">When.</param>
    public sealed record WorkPlanned(PlannedWork Work, DateTimeOffset PlannedAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => PlannedAt;
    }

    /// <summary>Somebody dropped planned work.</summary>
    /// <param name="Id">Its id.</param>
    /// <param name="DroppedAt">When.</param>
    public sealed record WorkDropped(string Id, DateTimeOffset DroppedAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => DroppedAt;
    }

    /// <summary>Somebody planned otherwise when a car comes and is begun.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="Visit">When.</param>
    /// <param name="PlannedAt">When it was planned so.</param>
    public sealed record VisitPlanned(string Job, Visit Visit, DateTimeOffset PlannedAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => PlannedAt;
    }

    /// <summary>A car that was to come does not.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="CancelledAt">When that was told.</param>
    public sealed record VisitCancelled(string Job, DateTimeOffset CancelledAt) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => CancelledAt;
    }

    /// <summary>Time passed, or a due instant was reached.</summary>
    /// <param name="Instant">The present.</param>
    public sealed record ClockReached(DateTimeOffset Instant) : Message
    {
        /// <inheritdoc/>
        public override DateTimeOffset At => Instant;
    }
}
