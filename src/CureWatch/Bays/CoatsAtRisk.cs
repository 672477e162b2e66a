using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The coats that are on, as what others do in their air may harm them.</summary>
internal static class CoatsAtRisk
{
    /// <summary>The living coats of a car that are in a bay.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="present">Its present.</param>
    /// <param name="job">The car.</param>
    /// <param name="layersBegin">When the next layer of a surface is planned to begin; null where nobody planned it.</param>
    public static IEnumerable<CoatAtRisk> Of(Shop shop, Present present, JobState job, Func<string, int, DateTimeOffset?> layersBegin)
    {
        foreach (SurfaceStory story in job.Stories)
        {
            if (!story.Living.Any() || present.StaysOf(job.Job, story)[^1].Bay is not { } bay || AirWorks.AirspaceOf(shop, bay) is not { } air)
            {
                continue;
            }

            foreach (Coat coat in story.Living)
            {
                yield return Of(present, job, story, coat, bay, air, layersBegin);
            }
        }
    }

    private static CoatAtRisk Of(
        Present present, JobState job, SurfaceStory story, Coat coat, string bay, string air, Func<string, int, DateTimeOffset?> layersBegin)
    {
        CoatWindows windows = present.WindowsOf(job.Job, story, coat);
        DateTimeOffset? cureStart = windows.CureStart.Latest;
        RiskTimes risk = RiskTimes.Of(windows.Laws, windows.Recoat?.OpensAt.Latest - cureStart, windows.KeepDry?.ClosesAt?.Latest - cureStart);
        DateTimeOffset? touchDry = coat.CoveredAt ?? cureStart + risk.TouchDry;
        TimeSpan? lampFrom = windows.Laws.Sheet.Lamp.Select(l => (TimeSpan?)l.NotBefore).Min();
        DateTimeOffset? solvent = windows.LevelOff is { } levelOff ? coat.LevelledAt ?? levelOff.OpensAt.Latest ?? touchDry : cureStart + lampFrom ?? touchDry;
        DateTimeOffset? next = story.AwaitsLayerOver(coat) ? layersBegin(coat.Surface.Id, coat.Layer + 1) : touchDry;
        return new CoatAtRisk(
            job.Job.Id,
            coat.Surface.Id,
            bay,
            air,
            coat.StartedAt,
            risk.HasSolvent ? solvent ?? DateTimeOffset.MaxValue : null,
            touchDry,
            next is null || touchDry is null ? null : next > touchDry ? next : touchDry,
            windows.KeepDry is { } keepDry ? keepDry.ClosesAt?.Latest : cureStart);
    }
}
