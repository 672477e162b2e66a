using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;

namespace CureWatch.Bays;

/// <summary>A job, and what people told of it.</summary>
/// <param name="Job">The job.</param>
/// <param name="Number">How many jobs were begun before it.</param>
/// <param name="OpenedAt">When it was begun.</param>
/// <param name="Told">Every tap in the order it was told.</param>
/// <param name="Stories">The same, surface by surface.</param>
/// <param name="Watched">The living coats about which something can still change.</param>
/// <param name="Overheats">Surfaces that got hotter than they may.</param>
/// <param name="IsReady">Whether the car may leave, as it was last ruled.</param>
/// <param name="RuleAt">When it has to be ruled on again; null where only a tap or water can turn the ruling.</param>
/// <param name="LeftAt">When the car left; null while it is here.</param>
public sealed record JobState(
    Job Job,
    int Number,
    DateTimeOffset OpenedAt,
    ImmutableArray<Tap> Told,
    ImmutableArray<SurfaceStory> Stories,
    ImmutableArray<WatchedCoat> Watched,
    ImmutableArray<(string Surface, Overheat Overheat)> Overheats,
    bool IsReady = false,
    DateTimeOffset? RuleAt = null,
    DateTimeOffset? LeftAt = null)
{
    /// <summary>What its taps teach, and what its coats were begun with.</summary>
    public JobLessons Lessons { get; init; } = JobLessons.None;

    /// <summary>How what its customer was told is watched.</summary>
    public PromiseWatch Promise { get; init; } = PromiseWatch.None;

    /// <summary>When a lamp over it has to be looked at; null where none burns about which something can fall due.</summary>
    public DateTimeOffset? LampLookAt { get; init; }

    /// <summary>When the car came, or is to come: once somebody told something done to it, it is here. A time told to its customer is nothing done to it.</summary>
    public DateTimeOffset CameAt => Job.Visit?.ArrivesAt is { } planned && planned > OpenedAt
        ? Taps.Standing(Told).Where(t => t.Did != Did.Told).Min(t => (DateTimeOffset?)t.At) is { } first && first <= planned ? first : planned
        : OpenedAt;

    /// <summary>Whether the car is still to come.</summary>
    /// <param name="now">The instant.</param>
    /// <returns>True where nobody told anything of it and its time has not come.</returns>
    public bool IsExpectedAt(DateTimeOffset now) => LeftAt is null && CameAt > now;

    /// <summary>From when on the car is here.</summary>
    /// <param name="now">The instant.</param>
    /// <returns>The instant; a later one where the car is still to come.</returns>
    public DateTimeOffset HereFrom(DateTimeOffset now) => IsExpectedAt(now) ? CameAt : now;

    /// <summary>From when on what is left can go on: not before the car is here, nor, while nothing is on it, before it was planned.</summary>
    /// <param name="now">The instant.</param>
    /// <returns>The instant, or a later one.</returns>
    public DateTimeOffset WorkFrom(DateTimeOffset now)
    {
        DateTimeOffset here = HereFrom(now);
        return Job.Visit?.PlannedAt is { } planned && planned > here && !Stories.Any(s => s.Living.Any()) ? planned : here;
    }

    /// <summary>When the job is closed and let go of; null while the car is here.</summary>
    public DateTimeOffset? ClosesAt => LeftAt + History.Kept;

    /// <summary>When something about it falls due, if nothing comes before; null where nothing can.</summary>
    public DateTimeOffset? DueAt { get; private init; }

    /// <summary>From when on a reading is reason enough to look at one of its coats; null where it is at none.</summary>
    public DateTimeOffset? FollowedFrom { get; private init; }

    /// <summary>The job with its next due instants worked out.</summary>
    /// <returns>The job.</returns>
    internal JobState Foreseen()
    {
        DateTimeOffset? next = Earlier(Earlier(Earlier(RuleAt, ClosesAt), Lessons.DrawAt), LeftAt is null ? Earlier(Promise.LookAt, LampLookAt) : null), followed = null;
        foreach (WatchedCoat coat in Watched)
        {
            next = Earlier(next, coat.ReviewAt);
            followed = Earlier(followed, coat.FollowedFrom);
        }

        return next == DueAt && followed == FollowedFrom ? this : this with { DueAt = next, FollowedFrom = followed };
    }

    private static DateTimeOffset? Earlier(DateTimeOffset? a, DateTimeOffset? b) => b is null || a <= b ? a : b;
}
