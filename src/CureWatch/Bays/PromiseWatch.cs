using CureWatch.Handover;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>How a car's promise is watched.</summary>
/// <param name="LookAt">When it has to be looked at again; null where only a tap or water can change it.</param>
/// <param name="Alarm">Whether it is at risk.</param>
/// <param name="Basis">What the collection rested on when it was last foreseen in time; null where it never was.</param>
/// <param name="Move">The time that should be told to the customer instead; null where what was told stands.</param>
/// <param name="SoonerSince">Since when the car could be collected well before it was promised, and before that was foreseen; null where it could not.</param>
/// <param name="For">The pick-up time that is watched; null where none is.</param>
public sealed record PromiseWatch(
    DateTimeOffset? LookAt, Alarm Alarm, PromiseBasis? Basis, PromiseMove? Move, DateTimeOffset? SoonerSince, DateTimeOffset? For)
{
    /// <summary>The time that could have been told when that was looked at first; null where none could.</summary>
    public DateTimeOffset? Foreseen { get; init; }

    /// <summary>What came of it when its time had come; null before that.</summary>
    public PromiseStanding? CameTo { get; init; }

    /// <summary>A promise nobody has looked at.</summary>
    public static PromiseWatch None { get; } = new(null, new Alarm.Normal(), null, null, null, null);
}

/// <summary>One time to say to the customer.</summary>
/// <param name="Tell">The time to tell; null where none can be told for now.</param>
/// <param name="Was">The time that was told.</param>
/// <param name="At">Since when this is to be told.</param>
/// <param name="Chance">The chance to make what was told [1].</param>
/// <param name="Reason">What moved it, a sentence.</param>
/// <param name="GetsItBack">What would make the time that was told after all; null where nothing does.</param>
public sealed record PromiseMove(DateTimeOffset? Tell, DateTimeOffset Was, DateTimeOffset At, double Chance, Sentence Reason, Sentence? GetsItBack)
{
    /// <summary>Whether it can still be told: an earlier time that is past is no news.</summary>
    /// <param name="now">The present.</param>
    /// <returns>True while it stands.</returns>
    public bool StandsAt(DateTimeOffset now) => !(Tell < Was && Tell <= now);
}
