namespace CureWatch.Bays;

/// <summary>Closes the jobs whose car left long enough ago: nothing told of them changes anything any more.</summary>
internal static class Closings
{
    /// <summary>Decides which jobs are closed.</summary>
    public static IEnumerable<ShopEvent> Decide(Shop shop) => shop.DueJobs.NextAt <= shop.Now ? Due(shop) : [];

    private static IEnumerable<ShopEvent> Due(Shop shop) =>
        from job in shop.DueJobs.DueBy(shop.Now)
        where shop.Jobs[job].ClosesAt <= shop.Now
        select new ShopEvent.JobClosed(JobReport.Of(shop, job));
}
