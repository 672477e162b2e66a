using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Learning;

namespace CureWatch.Service.Settings;

/// <summary>What a job file says: the job as it was planned, and the taps in the order they were written.</summary>
internal sealed record JobRecord(Job Job, ImmutableArray<Tap> Taps)
{
    /// <summary>What its coats were begun with where they were first lived through; null where the file does not say.</summary>
    public ImmutableDictionary<CoatKey, Learnt>? Begun { get; init; }

    /// <summary>How its day lay among the readings; null where the file does not say, and taps are told by when they were reported.</summary>
    public LivedDay? Day { get; init; }
}
