using CureWatch.Bays;

namespace CureWatch.Service.Demo;

/// <summary>Whoever looks at the demo and works on a car of their own. A wipe-down is good for 45 minutes: nobody can keep up with a day that plays in minutes.</summary>
internal static class Guests
{
    /// <summary>How fast the day plays while they do: a wait of two minutes is twelve seconds. Source (choice).</summary>
    public const double MinutesPerSecond = 1.0 / 6;

    /// <summary>How long after they last told something they count as gone. Source (choice).</summary>
    private static readonly TimeSpan Linger = TimeSpan.FromHours(1);

    public static bool AreAtWork(Shop shop) => shop.Jobs.Values.Any(job =>
        job.Job.Id is not (DemoDay.MainJob or DemoDay.SecondJob) && job.LeftAt is null && job.CameAt <= shop.Now && shop.Now - LastToldAt(job) < Linger);

    private static DateTimeOffset LastToldAt(JobState job) => job.Told is [.., var last] && last.ReportedAt > job.CameAt ? last.ReportedAt : job.CameAt;
}
