using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;

namespace CureWatch.Service.Settings;

/// <summary>What a job file says: the job as it was planned, and the taps in the order they were written.</summary>
internal sealed record JobRecord(Job Job, ImmutableArray<Tap> Taps);
