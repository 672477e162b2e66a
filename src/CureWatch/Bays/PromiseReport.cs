using CureWatch.Curing;
using CureWatch.Handover;

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
    string Text,
    TimeZoneInfo Zone)
{
    /// <summary>The one time to say to the customer; null where none can be said for now.</summary>
    public DateTimeOffset? Tell { get; private init; }

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

    /// <summary>The pick-up time the customer was told last.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The time; null where none was told.</returns>
    public static DateTimeOffset? PromisedAt(JobState job) => LastTold(job)?.PromisedAt ?? job.Job.PromisedAt;

    internal static PromiseReport Of(Shop shop, Present present, JobState job, Ruling ruling, double target = PromiseAdvice.UsualTarget, DateTimeOffset? begun = null)
    {
        string id = job.Job.Id;
        PromiseOutlook outlook = new PromiseScene(shop, present, job, begun).Outlook(ruling.Holds, PromisedAt(job));
        var words = new PromiseWords(shop.Plan.Hours, shop.Now);
        return new PromiseReport(
            id,
            shop.Now,
            outlook,
            LastTold(job),
            job.Promise.Move,
            new Lazy<PromiseAdvice?>(() => PromiseAdvice.Of(shop, id, target)),
            new Lazy<LastStart?>(() => Bays.LastStart.Of(shop, job)),
            words.Of(outlook, job.Promise.Move),
            shop.Plan.Hours.Zone)
        {
            Tell = job.Promise.Move is { } move ? move.Tell : outlook.PromisedAt ?? words.TimeToTell(outlook.CollectFrom),
        };
    }

    /// <summary>The bays a car's surfaces are in.</summary>
    internal static IEnumerable<BayState> BaysOf(Shop shop, JobState job) =>
        job.Stories.Select(s => Stay.Of(shop, job.Job, s)[^1].Bay).OfType<string>().Distinct().Order(StringComparer.Ordinal).Select(b => shop.Bays[b]);

    private static Tap? LastTold(JobState job) => Taps.Standing(job.Told).LastOrDefault(t => t is { Did: Did.Told, PromisedAt: not null });
}
