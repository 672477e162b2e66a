using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>Whether a probe repeats itself, and when it did so for longer than it can be right.</summary>
public sealed record ProbeStanding
{
    private readonly Repetition? _repetition;

    private ProbeStanding(Repetition? repetition, ImmutableArray<Still> stills) => (_repetition, Stills) = (repetition, stills);

    /// <summary>A probe that was never heard.</summary>
    public static ProbeStanding Unknown { get; } = new(null, []);

    /// <summary>The stretches that are not believed, in order.</summary>
    public ImmutableArray<Still> Stills { get; }

    /// <summary>Whether it stands still now, by more than a suspicion.</summary>
    public bool IsStill
    {
        get
        {
            foreach (Still still in Stills)
            {
                if (still is { To: null, Why: not StillReason.Suspected })
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>The stretch that it still stands in; null where it moves.</summary>
    /// <param name="what">What it measures.</param>
    /// <returns>The stretch.</returns>
    public Still? Open(Quantity what) => Stills.Open(what);

    /// <summary>The run a quantity is in; null before the first reading.</summary>
    internal Standing? Of(Quantity what) => _repetition?.Of(what);

    internal bool IsFrozenAt(RawReading raw) => _repetition?.IsFrozenAt(raw) == true;

    internal bool IsHalfStuckAt(RawReading raw) => _repetition is { } repetition && !repetition.IsFrozenAt(raw) && repetition.IsHalfStuckAt(raw);

    /// <summary>Whether nothing it says is believed any more, though it goes on: what it repeats is counted, and held.</summary>
    internal bool IsStillIn(Measures measures) =>
        Open(Quantity.Temperature) is not null && (measures == Measures.Panel || Open(Quantity.Humidity) is not null);

    /// <summary>Whether a quantity has repeated its value long enough to be held against anything else.</summary>
    internal bool IsRun(Quantity what, TimeSpan every) => _repetition?.IsRun(what, every) == true;

    /// <summary>What speaks against the value it repeats, as far as the probe itself tells; null where nothing does.</summary>
    internal StillReason? SuspicionOf(Quantity what, TimeSpan every) => !IsRun(what, every) ? null
        : _repetition!.IsFrozen ? StillReason.Refused
        : _repetition!.StrainOn(what) >= 1 ? StillReason.OtherMoved
        : _repetition.IsLongerThanUsual(what) ? StillReason.Unusual
        : null;

    /// <summary>Whether a quantity has repeated its value long enough to be suspected.</summary>
    internal bool MayBeSuspect(Quantity what, TimeSpan every) => _repetition?.MayBeSuspect(what, every) == true;

    /// <summary>Whether it does so for longer than is likely of a sound probe, though nothing speaks against it.</summary>
    internal bool IsSuspect(Quantity what, TimeSpan every) => _repetition?.IsSuspect(what, every) == true;

    /// <summary>The run that ended in a jump with a reading; null where it did not.</summary>
    internal StandingRun? JumpedFrom(Quantity what, TimeSpan every, DateTimeOffset at) => _repetition?.Jumped(what, every, at);

    /// <summary>Whether a reading is by a step or two from the one before, in all it says.</summary>
    internal bool IsByAStep(DateTimeOffset at) => _repetition?.IsByAStep(at) == true;

    internal ProbeStanding After(Probe probe, RawReading raw, DateTimeOffset at) =>
        new(_repetition?.After(probe, raw, at) ?? Repetition.Of(probe, raw, at), Stills);

    /// <summary>It stands still; where it was known to, more speaks against it now.</summary>
    internal ProbeStanding With(Still still) =>
        new(_repetition, Open(still.What) is { } known && still.To is null ? Stills.Replace(known, still) : Stills.With(still));

    /// <summary>
    /// It moved again: what lies between the ends of the stretch was not seen, or it is borne out and believed after all. What was only suspected and ends in a
    /// jump hid more than a bay in which nobody notices anything.
    /// </summary>
    internal ProbeStanding Move(Still still, Sample to, bool isBorneOut) =>
        new(_repetition, isBorneOut ? Stills.Remove(still) : Stills.Replace(still, still with { To = to, Why = still.Why == StillReason.Suspected ? StillReason.Jumped : still.Why }));

    /// <summary>Without what was over by an instant.</summary>
    internal ProbeStanding Since(DateTimeOffset from) => Stills.IsEmpty ? this : new(_repetition, Stills.RemoveAll(s => s.To?.At <= from));
}
