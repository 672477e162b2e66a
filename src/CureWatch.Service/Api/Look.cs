using System.Collections.Concurrent;
using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.Service.Pump;
using CureWatch.Warnings;

namespace CureWatch.Service.Api;

/// <summary>The shop as it is at this moment: the newest state on disk, folded to now on a copy of the reader's own.</summary>
/// <param name="register">The newest state on disk.</param>
/// <param name="shop">The shop now.</param>
/// <param name="troubles">What keeps the program itself from its work.</param>
/// <param name="queues">The lines of the shop's bays.</param>
internal sealed class Look(Register register, Shop shop, ImmutableList<Trouble> troubles, BayQueues queues)
{
    private readonly ConcurrentDictionary<string, JobReport> _reports = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, StartReport> _starts = new(StringComparer.Ordinal);

    private readonly Lazy<DayPlan> _plan = new(() => DayPlan.Of(shop, queues));

    public Register Register => register;

    public Shop Shop => shop;

    public ImmutableList<Trouble> Troubles => troubles;

    public DateTimeOffset At => shop.Now;

    /// <summary>The cars that are here, in the order they came.</summary>
    public IEnumerable<JobState> Here => Shop.JobsInOrder.Where(j => j.LeftAt is null);

    /// <summary>The warnings that stand, the most urgent first, then in the order they were given, with their numbers.</summary>
    public IEnumerable<(int Number, Warning Warning)> OpenWarnings =>
        Shop.Standing.Values.Order().Select(n => (n, Shop.Warnings[n])).OrderBy(w => AlarmRule.Of(w.Item2.Subject.Kind).Priority);

    /// <summary>How a job stands; worked out once for everyone who shares this look.</summary>
    public JobReport ReportOf(JobState job) => _reports.GetOrAdd(job.Job.Id, id => JobReport.Of(shop, id, queues));

    /// <summary>Whether a car can be coated; worked out once for everyone who shares this look.</summary>
    public StartReport StartOf(JobState job) => _starts.GetOrAdd(job.Job.Id, id => StartReport.Of(shop, id, queues: queues));

    /// <summary>The day plan; worked out once for everyone who shares this look.</summary>
    public DayPlan DayPlan => _plan.Value;

    /// <summary>The bays a car's surfaces are in now; empty where all of it is in the store or outside.</summary>
    public IEnumerable<string> BaysOf(JobState job) =>
        job.Stories.Select(s => Stay.Of(Shop, job.Job, s)[^1].Bay).OfType<string>().Distinct();
}
