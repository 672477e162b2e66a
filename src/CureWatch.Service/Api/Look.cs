using CureWatch.Bays;
using CureWatch.Service.Pump;
using CureWatch.Warnings;

namespace CureWatch.Service.Api;

/// <summary>The shop as it is at this moment: the newest state on disk, folded to now on a copy of the reader's own.</summary>
/// <param name="Register">The newest state on disk.</param>
/// <param name="Shop">The shop now.</param>
internal sealed record Look(Register Register, Shop Shop)
{
    public DateTimeOffset At => Shop.Now;

    /// <summary>The cars that are here, in the order they came.</summary>
    public IEnumerable<JobState> Here => Shop.Jobs.Where(j => j.LeftAt is null);

    /// <summary>The warnings that stand, the most urgent first, then in the order they were given, with their numbers.</summary>
    public IEnumerable<(int Number, Warning Warning)> OpenWarnings =>
        Shop.Standing.Values.Order().Select(n => (n, Shop.Warnings[n])).OrderBy(w => AlarmRule.Of(w.Item2.Subject.Kind).Priority);

    /// <summary>The bays a car's surfaces are in now; empty where all of it is in the store or outside.</summary>
    public IEnumerable<string> BaysOf(JobState job) =>
        job.Stories.Select(s => Stay.Of(Shop, job.Job.Bay, s)[^1].Bay).OfType<string>().Distinct();
}
