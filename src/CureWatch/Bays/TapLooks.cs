using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Units;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>What a tap means at once: water on a coat that has to stay dry, while the car is here; a panel read by hand.</summary>
public static class TapLooks
{
    /// <summary>Decides what a tap means.</summary>
    /// <param name="shop">The shop, the tap taken down.</param>
    /// <param name="jobId">The job.</param>
    /// <param name="tap">The tap.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, string jobId, Tap tap)
    {
        JobState job = shop.Find(jobId)!;
        var present = new Present(shop, shop.Now);
        return job.Stories.SelectMany(s => Watchman.Tell(shop, Wetted(jobId, s), job.LeftAt is null && IsWet(present, job, s)))
            .Concat(Told(job, tap.Corrects) is { } corrected ? Corrected(shop, job, tap, corrected) : [])
            .Concat(tap.PanelC is { } panelC && job.LeftAt is null ? ReadByHand(shop, job, tap, panelC) : [])
            .Concat(HeatLooks.Decide(shop, job, tap));
    }

    private static Subject Wetted(string job, SurfaceStory story) => new(WarningKind.Wetted) { Job = job, Surface = story.Surface.Id };

    private static bool IsWet(Present present, JobState job, SurfaceStory story) =>
        story.Wettings.Any(w => w.DriedAt is null)
        && story.Living.Any(c => present.WindowsOf(job.Job, story, c).WettedInKeepDry.Any(w => w.DriedAt is null));

    private static Tap? Told(JobState job, string? id) => id is null ? null : job.Told.FirstOrDefault(t => t.Id == id);

    /// <summary>A spot that is taken back at once was a slip; later, somebody has to look. Where a correction is taken back, what it had corrected stands again.</summary>
    private static IEnumerable<ShopEvent> Corrected(Shop shop, JobState job, Tap tap, Tap corrected)
    {
        bool isSlip = corrected.PanelC is not null && tap.ReportedAt - corrected.ReportedAt <= Untimely.UndoLimit;
        Tap? again = tap.Did == Did.Withdrawn && job.LeftAt is null ? Told(job, corrected.Corrects) : null;
        return (isSlip ? TakenBack(shop, job, corrected) : []).Concat(again is { PanelC: { } panelC } ? ReadByHand(shop, job, again, panelC) : []);
    }

    /// <summary>Water that a spot alone showed was never there, if nobody read that spot.</summary>
    private static IEnumerable<ShopEvent> TakenBack(Shop shop, JobState job, Tap slip) =>
        ReadOn(job, slip) is { } read && Stay.Of(shop, job.Job, read)[^1].Point is { } point && shop.Bays[point.Bay].WetSpellsIn(point.Air).Contains(new Spell(slip.At, slip.At))
            ? [new ShopEvent.CondensationWithdrawn(point.Bay, point.Air, slip.At)]
            : [];

    private static SurfaceStory? ReadOn(JobState job, Tap tap) => job.Stories.FirstOrDefault(s => (tap.Surface is null || s.Surface.Id == tap.Surface) && s.Living.Any());

    private static IEnumerable<ShopEvent> ReadByHand(Shop shop, JobState job, Tap tap, double panelC)
    {
        foreach (SurfaceStory story in job.Stories.Where(s => tap.Surface is null || s.Surface.Id == tap.Surface))
        {
            double limitC = shop.HeatLimitOfC(story.Surface);
            if (panelC > limitC)
            {
                yield return new ShopEvent.SurfaceOverheated(job.Job.Id, story.Surface.Id, new Overheat(tap.At, panelC, limitC));
            }
        }

        if (ReadOn(job, tap) is { } read && Stay.Of(shop, job.Job, read)[^1].Point is { } point
            && shop.Bays[point.Bay] is var bay && !bay.IsWet(point.Air)
            && shop.Now - tap.At <= Source.CureLimit && BayAir.Measured(bay, point.Air, shop.Now) is { } air
            && panelC + Celsius.KelvinsAtZero <= air.CondensationKelvins)
        {
            yield return new ShopEvent.CondensationBegan(point.Bay, point.Air, tap.At);
            yield return new ShopEvent.CondensationEnded(point.Bay, point.Air, tap.At);
        }
    }
}
