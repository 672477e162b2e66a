using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Reports;

/// <summary>A shop's bays and cars on a time line: when each bay frees, whether what is planned next fits, and who would harm whom.</summary>
/// <param name="At">The instant.</param>
/// <param name="Hours">The days that are looked at.</param>
/// <param name="Bays">The bays, in the shop's order.</param>
/// <param name="Conflicts">The work that harms an open coat, or one as it is planned, in the order it begins.</param>
/// <param name="Pace">How fast a section is worked.</param>
public sealed record DayPlan(
    DateTimeOffset At, ShopHours Hours, ImmutableArray<BayDay> Bays, ImmutableArray<WorkConflict> Conflicts, SectionPace Pace)
{
    /// <summary>What the plan takes for granted, in words.</summary>
    public ImmutableArray<Sentence> Assumed { get; init; } = [];

    /// <summary>Whether everything that is planned fits and harms nobody.</summary>
    public bool Fits => Conflicts.IsEmpty && Bays.SelectMany(b => b.Cars).All(c => c.Asked.Fits);

    /// <summary>Plans from a shop's present on.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="queues">The lines of its bays, where somebody has them already.</param>
    /// <returns>The plan.</returns>
    public static DayPlan Of(Shop shop, BayQueues? queues = null) => new DayPlanning(shop, queues).Plan();
}

/// <summary>A bay on the time line.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Airspace">Its air, which other bays may share.</param>
/// <param name="Free">When it is free, once all that are planned for it have left.</param>
/// <param name="FreeFromHere">When it is free of the cars that are in it now.</param>
/// <param name="Cars">The cars in it and planned for it, in the order they are worked.</param>
/// <param name="Work">The other work planned in it that is not over.</param>
public sealed record BayDay(
    string Bay, string Airspace, BayFree Free, BayFree FreeFromHere, ImmutableArray<CarDay> Cars, ImmutableArray<PlannedWork> Work);

/// <summary>A car on the time line.</summary>
/// <param name="Job">Its job.</param>
/// <param name="IsBegun">Whether a coat is on it: then its work goes on from now, and nothing of it can be planned otherwise.</param>
/// <param name="Arrival">When it comes, or came.</param>
/// <param name="Work">How its work goes.</param>
/// <param name="Asked">Whether that is as it was asked for.</param>
public sealed record CarDay(Job Job, bool IsBegun, CarArrival Arrival, CarWork Work, AskedStart Asked)
{
    /// <summary>Whether it is planned; false where it is asked for after all days that are looked at, so that nobody can tell yet whether it fits.</summary>
    public bool IsPlanned { get; init; } = true;

    /// <summary>The pick-up time its customer was told last; null where none was.</summary>
    public DateTimeOffset? PromisedAt { get; init; }
}

/// <summary>How a car comes.</summary>
/// <param name="IsHere">Whether it is here.</param>
/// <param name="At">When it comes, or came.</param>
/// <param name="DryFrom">When its slowest panel is dry enough; null where that is over, not known, or never.</param>
public sealed record CarArrival(bool IsHere, DateTimeOffset At, DateTimeOffset? DryFrom);

/// <summary>A car's work on the time line.</summary>
/// <param name="BeginsAt">When its coating begins, or goes on; null where nothing is left to go on, or no start fits.</param>
/// <param name="DoneAt">When its last section is levelled; null likewise.</param>
/// <param name="ReadyAt">When its last keep-dry ends; null where nobody can tell.</param>
/// <param name="FreesAt">When it leaves its bay: finished, inside opening hours; null where nobody can tell.</param>
/// <param name="Layers">What is done, layer by layer.</param>
public sealed record CarWork(
    DateTimeOffset? BeginsAt, DateTimeOffset? DoneAt, TimeBounds? ReadyAt, DateTimeOffset? FreesAt, ImmutableArray<LayerWork> Layers)
{
    /// <summary>Nobody can tell how it goes.</summary>
    public static CarWork Unknown { get; } = new(null, null, null, null, []);
}

/// <summary>What comes of the start that was asked for.</summary>
/// <param name="At">When the car was asked to be begun; null where its work is begun.</param>
/// <param name="Fits">Whether it fits as it is planned; true as well where it is not planned yet.</param>
/// <param name="EarliestAt">The earliest start that fits, whatever was promised; null where none does, or its work is begun.</param>
/// <param name="Reasons">Every reason against what is planned.</param>
public sealed record AskedStart(DateTimeOffset? At, bool Fits, DateTimeOffset? EarliestAt, ImmutableArray<StartReason> Reasons);
