using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Learning;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>What happened in the shop.</summary>
public abstract record ShopEvent
{
    private ShopEvent()
    {
    }

    /// <summary>The present moved on.</summary>
    /// <param name="At">The present.</param>
    public sealed record TimePassed(DateTimeOffset At) : ShopEvent;

    /// <summary>A reading was believed.</summary>
    /// <param name="Raw">The reading.</param>
    public sealed record ReadingBelieved(RawReading Raw) : ShopEvent;

    /// <summary>A reading was not believed.</summary>
    /// <param name="Raw">The reading.</param>
    /// <param name="Why">Why not.</param>
    /// <param name="Held">What is taken for its temperature, where its vapour pressure is believed all the same; else null.</param>
    public sealed record ReadingDoubted(RawReading Raw, Disbelief Why, HeldTemperature? Held = null) : ShopEvent
    {
        /// <summary>Whether a part of it is followed all the same: its vapour pressure under a lamp, or what moves where the rest is stuck.</summary>
        public bool IsFollowed { get; init; } = Held is not null;
    }

    /// <summary>A probe repeated one value for longer than it can be right: what it repeated is not believed since it began to.</summary>
    /// <param name="Bay">The bay.</param>
    /// <param name="Probe">The probe.</param>
    /// <param name="Still">The stretch; over already where only its end told.</param>
    public sealed record ValueStood(string Bay, string Probe, Still Still) : ShopEvent;

    /// <summary>What stood still moved again.</summary>
    /// <param name="Bay">The bay.</param>
    /// <param name="Probe">The probe.</param>
    /// <param name="What">What it measures.</param>
    /// <param name="IsBorneOut">Whether it moved as a sound probe does, so that what it repeated is believed after all.</param>
    public sealed record ValueMoved(string Bay, string Probe, Quantity What, bool IsBorneOut) : ShopEvent;

    /// <summary>A majority of a probe's twins contradicts it, or contradicts it no more.</summary>
    /// <param name="Bay">The bay.</param>
    /// <param name="Probe">The probe.</param>
    /// <param name="At">Since when it is not believed; null where it is again.</param>
    public sealed record ProbeOutvoted(string Bay, string Probe, DateTimeOffset? At) : ShopEvent;

    /// <summary>What came late in a bay was followed.</summary>
    /// <param name="Bay">The bay.</param>
    public sealed record BacklogFollowed(string Bay) : ShopEvent;

    /// <summary>A job was opened.</summary>
    /// <param name="Job">The job.</param>
    public sealed record JobOpened(Job Job) : ShopEvent
    {
        /// <summary>What its coats were begun with where they were first lived through; null where that is not told.</summary>
        public ImmutableDictionary<CoatKey, Learnt>? Begun { get; init; }
    }

    /// <summary>A tap was taken down.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="Tap">The tap.</param>
    public sealed record TapTakenDown(string Job, Tap Tap) : ShopEvent;

    /// <summary>Water began to condense in a bay.</summary>
    /// <param name="Bay">The bay.</param>
    /// <param name="Air">The place that stands for the air.</param>
    /// <param name="At">When.</param>
    public sealed record CondensationBegan(string Bay, Place Air, DateTimeOffset At) : ShopEvent;

    /// <summary>Water no longer condenses in a bay.</summary>
    /// <param name="Bay">The bay.</param>
    /// <param name="Air">The place that stands for the air.</param>
    /// <param name="At">When.</param>
    public sealed record CondensationEnded(string Bay, Place Air, DateTimeOffset At) : ShopEvent;

    /// <summary>What had been read as water was a slip, and was taken back.</summary>
    /// <param name="Bay">The bay.</param>
    /// <param name="Air">The place that stands for the air.</param>
    /// <param name="At">When it had been read.</param>
    public sealed record CondensationWithdrawn(string Bay, Place Air, DateTimeOffset At) : ShopEvent;

    /// <summary>A surface got hotter than it may.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="Surface">The surface.</param>
    /// <param name="Overheat">How hot, and when.</param>
    public sealed record SurfaceOverheated(string Job, string Surface, Overheat Overheat) : ShopEvent;

    /// <summary>An alarm moved between its delays.</summary>
    /// <param name="Subject">What it is about.</param>
    /// <param name="Alarm">Where it is now.</param>
    public sealed record AlarmMoved(Subject Subject, Alarm Alarm) : ShopEvent;

    /// <summary>A person was warned.</summary>
    /// <param name="Warning">The warning.</param>
    public sealed record WarningRaised(Warning Warning) : ShopEvent;

    /// <summary>A warning that stands says by now something else; nobody is warned anew.</summary>
    /// <param name="Warning">The warning as it is now.</param>
    public sealed record WarningReworded(Warning Warning) : ShopEvent;

    /// <summary>A warning is over.</summary>
    /// <param name="Subject">What it is about.</param>
    /// <param name="At">When.</param>
    public sealed record WarningCleared(Subject Subject, DateTimeOffset At) : ShopEvent;

    /// <summary>The ruling on a car turned.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="IsReady">Whether it may leave.</param>
    /// <param name="At">When.</param>
    public sealed record RulingTurned(string Job, bool IsReady, DateTimeOffset At) : ShopEvent;

    /// <summary>It was foreseen when a car has to be ruled on again.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="RuleAt">When; null where nothing about it can turn but by a tap or water.</param>
    public sealed record RulingForeseen(string Job, DateTimeOffset? RuleAt) : ShopEvent;

    /// <summary>What a car's customer was told was looked at.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="Watch">How it is watched from here on.</param>
    public sealed record PromiseWatched(string Job, PromiseWatch Watch) : ShopEvent;

    /// <summary>When a lamp over a job has to be looked at was foreseen anew.</summary>
    /// <param name="Job">The job.</param>
    /// <param name="LookAt">When; null where nothing about its lamps can fall due.</param>
    public sealed record LampForeseen(string Job, DateTimeOffset? LookAt) : ShopEvent;

    /// <summary>A car left.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="At">When.</param>
    public sealed record CarHandedOver(string Job, DateTimeOffset At) : ShopEvent;

    /// <summary>A job was closed: its car left two days ago, or does not come; nothing about it can change, and the shop lets go of it.</summary>
    /// <param name="Last">How it stood at the end.</param>
    public sealed record JobClosed(JobReport Last) : ShopEvent;

    /// <summary>The shop is set up otherwise.</summary>
    /// <param name="Plan">The shop as it is set up.</param>
    public sealed record PlanReplaced(ShopPlan Plan) : ShopEvent;

    /// <summary>A product sheet was taken in.</summary>
    /// <param name="Sheet">The sheet.</param>
    public sealed record SheetTakenIn(ProductSheet Sheet) : ShopEvent;

    /// <summary>Messages that were no readings were counted.</summary>
    /// <param name="Counts">How many, by reason.</param>
    public sealed record RefusalsCounted(ImmutableArray<(Disbelief Why, int Count)> Counts) : ShopEvent;

    /// <summary>It was foreseen when a coat has to be looked at again.</summary>
    /// <param name="Coat">The coat.</param>
    /// <param name="ReviewAt">When; null once nothing about it can change but by a tap.</param>
    /// <param name="FollowedFrom">From when on a reading is reason enough; null where nobody has to do anything to it in time.</param>
    public sealed record CoatForeseen(CoatKey Coat, DateTimeOffset? ReviewAt, DateTimeOffset? FollowedFrom) : ShopEvent
    {
        /// <summary>Whether its keep-dry is over at the latest.</summary>
        public bool IsDry { get; init; }
    }

    /// <summary>A bay was looked ahead in.</summary>
    /// <param name="Bay">The bay.</param>
    /// <param name="Ahead">What is expected; null where no coat in it is open any more.</param>
    public sealed record BayForeseen(string Bay, BayAhead? Ahead) : ShopEvent;

    /// <summary>What a job's taps teach was drawn from them.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="Lessons">Every lesson of the taps that have stood long enough.</param>
    /// <param name="NextAt">When to draw again; null where no tap is too young yet.</param>
    public sealed record LessonsDrawn(string Job, ImmutableArray<DrawnLesson> Lessons, DateTimeOffset? NextAt) : ShopEvent;

    /// <summary>What was learnt about a product starts anew.</summary>
    /// <param name="Product">The product, all its revisions.</param>
    /// <param name="Bay">Only what concerns this bay; null for all.</param>
    /// <param name="At">When.</param>
    public sealed record LearningReset(string Product, string? Bay, DateTimeOffset At) : ShopEvent;

    /// <summary>Work other than coating was planned, or planned otherwise.</summary>
    /// <param name="Work">The work.</param>
    public sealed record WorkPlanned(PlannedWork Work) : ShopEvent;

    /// <summary>Planned work was dropped.</summary>
    /// <param name="Id">Its id.</param>
    public sealed record WorkDropped(string Id) : ShopEvent;

    /// <summary>It was planned otherwise when a car comes and is begun.</summary>
    /// <param name="Job">The job's id.</param>
    /// <param name="Visit">When.</param>
    public sealed record VisitPlanned(string Job, Visit Visit) : ShopEvent;

    /// <summary>It was foreseen when what harms open coats has to be looked at again.</summary>
    /// <param name="At">When; null where nothing is planned or going on.</param>
    public sealed record ConflictsForeseen(DateTimeOffset? At) : ShopEvent;
}

/// <summary>Names a coat.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer.</param>
/// <param name="Section">The section.</param>
public readonly record struct CoatKey(string Job, string Surface, int Layer, int Section)
{
    /// <summary>The key of a coat.</summary>
    /// <param name="job">The job's id.</param>
    /// <param name="coat">The coat.</param>
    /// <returns>The key.</returns>
    public static CoatKey Of(string job, Coat coat) => new(job, coat.Surface.Id, coat.Layer, coat.Section);
}
