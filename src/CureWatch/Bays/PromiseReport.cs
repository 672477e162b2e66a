using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>How a car's promise stands at an instant.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="At">The instant.</param>
/// <param name="Outlook">Whether it is made.</param>
/// <param name="Told">The tap by which the customer was told a time last; null where only the job says one, or none does.</param>
/// <param name="Move">The time to tell instead; null where what was told stands.</param>
/// <param name="Advice">The least that would make it, worked out when it is asked for; null where the customer was told no time.</param>
/// <param name="LastStart">When the work that is left has to be begun, worked out when it is asked for; null where none is left.</param>
/// <param name="Text">How it stands, in words.</param>
/// <param name="Zone">The shop's time zone.</param>
public sealed record PromiseReport(
    string Job,
    DateTimeOffset At,
    PromiseOutlook Outlook,
    Tap? Told,
    PromiseMove? Move,
    Lazy<PromiseAdvice?> Advice,
    Lazy<LastStart?> LastStart,
    Sentence Text,
    TimeZoneInfo Zone)
{
    /// <summary>The one time to say to the customer; null where none can be said for now.</summary>
    public DateTimeOffset? Tell { get; private init; }

    /// <summary>When the work of a car that is not begun begins; null where it is begun, or nothing of it is planned yet.</summary>
    public TimeBounds? BeginsAt { get; private init; }

    /// <summary>Whose car it waits for; null where it waits for none.</summary>
    public QueueAhead? After { get; private init; }

    /// <summary>The same as <see cref="Text"/> for people of the shop, who call the car it waits for by its name.</summary>
    public Sentence Spoken { get; private init; } = Text;

    /// <summary>Reports on a car's promise.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The job's id; the job must be there.</param>
    /// <param name="target">The chance that the advice is to reach [1], above 0 and below 1.</param>
    /// <returns>The report at the shop's present.</returns>
    public static PromiseReport Of(Shop shop, string id, double target = PromiseAdvice.UsualTarget)
    {
        JobState job = shop.Find(id) ?? throw new ArgumentException($"No job '{id}'.", nameof(id));
        var present = new Present(shop, shop.Now);
        return Of(shop, present, job, JobReport.RulingOn(shop, present, job), target);
    }

    /// <summary>Reports on the promises of all cars that are here, or are to come; each bay's line is worked out once.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="queues">The lines of its bays, where somebody has them already.</param>
    /// <returns>The reports at the shop's present, in the order the jobs were opened.</returns>
    public static IEnumerable<PromiseReport> OfAll(Shop shop, BayQueues? queues = null)
    {
        ArgumentNullException.ThrowIfNull(shop);
        queues ??= new BayQueues(shop);
        return shop.JobsInOrder.Where(j => j.LeftAt is null).Select(j =>
        {
            var present = new Present(shop, shop.Now);
            return Of(shop, present, j, JobReport.RulingOn(shop, present, j), queues: queues);
        });
    }

    /// <summary>The pick-up time the customer was told last.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The time; null where none was told.</returns>
    public static DateTimeOffset? PromisedAt(JobState job) => LastTold(job)?.PromisedAt ?? job.Job.PromisedAt;

    internal static PromiseReport Of(
        Shop shop, Present present, JobState job, Ruling ruling, double target = PromiseAdvice.UsualTarget, DateTimeOffset? begun = null, BayQueues? queues = null)
    {
        string id = job.Job.Id;
        PromiseScene scene = PromiseScene.Of(shop, present, job, begun, queues);
        PromiseOutlook outlook = scene.Outlook(ruling.Holds, PromisedAt(job));
        var words = new PromiseWords(shop.Plan.Hours, shop.Now);
        QueueAhead? after = scene.Turn?.Ahead;
        Sentence told = $"{words.Of(outlook, job.Promise.Move)}{(scene.Turn is null && outlook.Standing != PromiseStanding.Kept ? words.OfUnfit(scene.Left?.Unfit) : Sentence.None)}";
        return new PromiseReport(
            id,
            shop.Now,
            outlook,
            LastTold(job),
            job.Promise.Move,
            new Lazy<PromiseAdvice?>(() => PromiseAdvice.Of(shop, id, target)),
            new Lazy<LastStart?>(() => Bays.LastStart.Of(shop, job, queues)),
            $"{told}{words.OfTurn(scene.Turn, after?.Job)}",
            shop.Plan.Hours.Zone)
        {
            Tell = outlook.Standing == PromiseStanding.Missed || (outlook.Standing == PromiseStanding.Kept && outlook.IsHeldAt(shop.Now)) ? words.TimeToTell(outlook.CollectFrom)
                : outlook.Standing != PromiseStanding.Kept && job.Promise.Move is { } move && move.StandsAt(shop.Now) ? move.Tell
                : outlook.PromisedAt ?? words.TimeToTell(outlook.CollectFrom),
            BeginsAt = begun is null ? scene.Turn?.BeginsAt : null,
            After = after,
            Spoken = $"{told}{words.OfTurn(scene.Turn, after is null ? null : shop.Find(after.Job)?.Job.Car ?? after.Job)}",
        };
    }

    /// <summary>The bays a car's surfaces are in.</summary>
    internal static IEnumerable<BayState> BaysOf(Shop shop, JobState job) =>
        job.Stories.Select(s => Stay.Of(shop, job.Job, s)[^1].Bay).OfType<string>().Distinct().Order(StringComparer.Ordinal).Select(b => shop.Bays[b]);

    private static Tap? LastTold(JobState job) => Taps.Standing(job.Told).LastOrDefault(t => t is { Did: Did.Told, PromisedAt: not null });
}
