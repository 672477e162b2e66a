using System.Collections.Concurrent;
using System.Collections.Immutable;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The cars of each bay in the order they are worked: when each can be begun, and when it leaves the bay to the next.</summary>
/// <remarks>
/// One car a bay (choice), but what people work on is in its bay, whatever else is. A car whose coating is begun stays as it is; after it come the others:
/// those people work on, those that are here, those that are expected, each when it was asked for where that fits, else at the earliest start that does. All of
/// it three times over, by the earliest, the likely and the latest end of each car: what slows one coat slows those behind it. The day plan goes by the latest.
/// The line of a bay is worked out once, for everybody who shares a look at the shop, whichever of them asks first.
/// </remarks>
public sealed class BayQueues
{
    /// <summary>How far is looked ahead. Source (choice): beyond a week nobody plans a car to the hour.</summary>
    public static readonly TimeSpan Sight = TimeSpan.FromDays(7);

    private readonly Shop _shop;
    private readonly Supposed _supposed;
    private readonly Lazy<ShopHours> _hours;
    private readonly Lazy<ImmutableArray<AirWork>> _works;
    private readonly Lazy<ILookup<string, JobState>> _jobs;
    private readonly Lazy<Func<string, OpenTonight>> _open;
    private readonly ConcurrentDictionary<string, Lazy<BayLine>> _lines = new(StringComparer.Ordinal);

    /// <summary>The lines of a shop at its present.</summary>
    /// <param name="shop">The shop.</param>
    public BayQueues(Shop shop)
        : this(shop, Supposed.Nothing)
    {
    }

    private BayQueues(Shop shop, Supposed supposed)
    {
        (_shop, _supposed) = (shop, supposed);
        _hours = new Lazy<ShopHours>(() => HoursOf(shop));
        _open = new Lazy<Func<string, OpenTonight>>(() => OpenTonight.In(shop));
        _works = new Lazy<ImmutableArray<AirWork>>(() => [.. AirWorks.Of(shop).Concat(AirWorks.OfCarsToCome(shop)).Where(w => w.From < Hours.Until)]);
        _jobs = new Lazy<ILookup<string, JobState>>(() => shop.JobsInOrder.Where(j => j.LeftAt is null).ToLookup(j => BayOf(j) ?? j.Job.Bay, StringComparer.Ordinal));
    }

    /// <summary>The days that are looked at.</summary>
    internal ShopHours Hours => _hours.Value;

    /// <summary>What has to stay dry, bay by bay.</summary>
    internal Func<string, OpenTonight> Open => _open.Value;

    /// <summary>What goes on in the airs, and is planned there.</summary>
    internal ImmutableArray<AirWork> Works => _works.Value;

    /// <summary>Whether a car's work is begun, or nothing of it is left: it waits for nobody.</summary>
    internal static bool IsBegun(JobState job) => job.Stories.Any(s => s.Living.Any()) || !job.Stories.SelectMany(s => s.Missing()).Any();

    /// <summary>The turn of one car as is supposed, with those before it alone; null where it is in no line.</summary>
    internal static QueuedCar? TurnOf(Shop shop, Supposed supposed, JobState job)
    {
        var queues = new BayQueues(shop, supposed);
        return TurnIn(new BayLining(shop, supposed, queues, queues.LineOf(job)).Line(job.Job.Id), job);
    }

    /// <summary>The line of a bay.</summary>
    internal BayLine Of(string bay) => !JobsIn(bay).Any()
        ? BayLine.Empty
        : _lines.GetOrAdd(bay, b => new Lazy<BayLine>(() => new BayLining(_shop, _supposed, this, b).Line())).Value;

    /// <summary>A car whose work is not begun, in its line; null where it has none, begun or gone.</summary>
    internal QueuedCar? Of(JobState job) => TurnIn(Of(LineOf(job)), job);

    /// <summary>The cars whose bay one is, in the order they came.</summary>
    internal IEnumerable<JobState> JobsIn(string bay) => _jobs.Value[bay];

    /// <summary>When a car that is begun leaves its bay: finished, inside opening hours; null where nobody can tell while water is on it, or its end is not known.</summary>
    internal TimeBounds LeavesAt(TimeBounds? readyAt) => new(LeavesAt(readyAt?.Earliest), LeavesAt(readyAt?.Likely), LeavesAt(readyAt?.Latest));

    /// <summary>When a begun car's last keep-dry ends; null where only people can bring that about.</summary>
    internal TimeBounds? ReadyAt(Present present, JobState job, PromiseScene scene) =>
        JobReport.RulingOn(_shop, present, job).ReadyAt is null && job.Stories.Any(s => s.Living.Any()) ? null : scene.ReadyAt ?? TimeBounds.Known(_shop.Now);

    /// <summary>The bay a car is in, by its first surface that is in one; null where it is in none.</summary>
    internal string? BayOf(JobState job) => job.Stories.Select(s => Stay.Of(_shop, job.Job, s)[^1].Bay).OfType<string>().FirstOrDefault();

    private static QueuedCar? TurnIn(BayLine line, JobState job) => line.Waiting.FirstOrDefault(q => q.Job.Job.Id == job.Job.Id);

    private string LineOf(JobState job) => BayOf(job) ?? job.Job.Bay;

    private DateTimeOffset? LeavesAt(DateTimeOffset? readyAt)
    {
        DateTimeOffset? leaves = readyAt is { } at ? _shop.Plan.Hours.AfterWork(at, _shop.Plan.Finishing) : null;
        return leaves < _shop.Now ? _shop.Plan.Hours.AfterWork(_shop.Now, TimeSpan.Zero) : leaves;
    }

    /// <summary>The days that are looked at.</summary>
    internal static ShopHours HoursOf(Shop shop)
    {
        var days = ImmutableArray.CreateBuilder<ShopDay>();
        ShopDay? day = shop.Plan.Hours.DayAt(shop.Now);
        while (day is not null && (days.Count == 0 || days[^1].Opens <= shop.Now + Sight))
        {
            days.Add(day);
            day = day.LocksUp is { } lockUp ? shop.Plan.Hours.DayAt(lockUp) : null;
        }

        return new ShopHours(shop.Now, shop.Now + Sight, shop.Plan.Hours.Zone, days.ToImmutable());
    }
}
