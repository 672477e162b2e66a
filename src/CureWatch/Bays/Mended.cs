using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says beside what a fault holds up what it would be if every probe at fault were put right now.</summary>
/// <remarks>
/// Worked out on a copy of the shop in which each of them tells one more reading, and a moment later: what comes after a reading is known, what lies before
/// it stays as unknown as it was. Of what a reading sets off only what moves a window is done, so that a report costs no more than its windows twice.
/// </remarks>
internal static class Mended
{
    /// <summary>After every reading heard, and too far for two to be taken for one.</summary>
    private static readonly TimeSpan Soon = 2 * Readings.ProbeLog.Pace;

    /// <summary>The report with those times beside its own.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="report">The report at the shop's present.</param>
    /// <returns>The report; the same where no probe is at fault.</returns>
    public static JobReport Beside(Shop shop, JobReport report)
    {
        if (!report.Surfaces.Any(s => s.Coats.Any(c => c.Windows.Any(IsHeldUp))) || shop.Find(report.Job.Id) is not { LeftAt: null } state)
        {
            return report;
        }

        Shop copy = MendedIn(shop, state);
        JobState job = copy.Jobs[report.Job.Id];
        var present = new Present(copy, copy.Now);
        TimeBounds? readyAt = JobReport.RulingOn(copy, present, job).ReadyAt;
        return report with
        {
            Surfaces = [.. report.Surfaces.Select(s => (s.Surface, Beside(present, job, s.Surface, s.Coats)))],
            Ruling = report.Ruling with
            {
                IfMended = readyAt,
                Holds = [.. report.Ruling.Holds.Select(h => h.Kind == HoldKind.KeepDry ? h with { Text = $"{h.Text}{Words(shop, report, h, present, job)}" } : h)],
            },
        };
    }

    private static Shop MendedIn(Shop shop, JobState state)
    {
        DateTimeOffset at = shop.Now + Soon;
        shop = Evolution.Evolve(shop, new ShopEvent.TimePassed(at));
        foreach (string id in state.Stories.SelectMany(s => Stay.Of(shop, state.Job, s)).Select(s => s.Point?.Bay).OfType<string>().Distinct())
        {
            BayState bay = shop.Bays[id];
            for (int i = 0; i < bay.Logs.Length; i++)
            {
                if (MendedReading.IsNeededBy(bay.Logs[i], shop.Now) && MendedReading.Of(bay, i, at) is { } reading)
                {
                    shop = Intake.Decide(shop, new Message.ReadingCame(reading)).Aggregate(shop, Evolution.Evolve);
                    shop = StandingLooks.Decide(shop, reading).Aggregate(shop, Evolution.Evolve);
                }
            }
        }

        return Evolution.Evolve(shop, new ShopEvent.TimePassed(at + Readings.ProbeLog.Pace));
    }

    private static ImmutableArray<CoatReport> Beside(Present present, JobState job, Surface surface, ImmutableArray<CoatReport> coats)
    {
        SurfaceStory story = job.Stories.First(s => s.Surface.Id == surface.Id);
        return [.. coats.Select(c => c.Windows.Any(IsHeldUp) && WindowsOf(present, job, story, c.Coat) is { } mended ? c with { Windows = [.. c.Windows.Select(w => Beside(w, mended)) ] } : c)];
    }

    private static Window Beside(Window window, CoatWindows mended) =>
        IsHeldUp(window) && mended.All.FirstOrDefault(m => m.Stage == window.Stage) is { } other ? window with { IfMended = other.ClosesAt ?? other.OpensAt } : window;

    private static CoatWindows? WindowsOf(Present present, JobState job, SurfaceStory story, Coat coat) =>
        story.Living.FirstOrDefault(c => c == coat) is { } living ? present.WindowsOf(job.Job, story, living) : null;

    private static bool IsHeldUp(Window window) => window.State is not (WindowState.Done or WindowState.Missed) && window.Because.Any(b => b.To is null);

    private static Sentence Words(Shop shop, JobReport report, Hold hold, Present present, JobState job)
    {
        CoatReport? coat = report.Surfaces.First(s => s.Surface.Id == hold.Surface).Coats.FirstOrDefault(c => c.Coat.Layer == hold.Layer && c.Coat.Section == hold.Section && c.Coat.EndedAt is null);
        if (coat?.Windows.FirstOrDefault(w => w.Stage == WindowStage.KeepDry && IsHeldUp(w)) is not { ClosesAt: not null } window)
        {
            return Sentence.None;
        }

        DateTimeOffset? latest = WindowsOf(present, job, job.Stories.First(s => s.Surface.Id == hold.Surface), coat.Coat)?.KeepDry?.ClosesAt?.Latest;
        Sentence reasons = Sentence.Join("", window.Because.Where(b => b.To is null).Select(b => (Sentence)$" {b.Text} {b.Ends}"));
        return $"{reasons} {MendedWords.Of(latest, shop.Plan.Hours.Zone)}";
    }
}

/// <summary>Says when something would be over if the probes were put right now.</summary>
public static class MendedWords
{
    /// <summary>Says it.</summary>
    /// <param name="latest">When it would be over at the latest; null where it would have no latest.</param>
    /// <param name="zone">The shop's time zone.</param>
    /// <returns>A sentence.</returns>
    public static Sentence Of(DateTimeOffset? latest, TimeZoneInfo zone) => latest is { } at
        ? (Sentence)$"Put right now, it would be over {TimeZoneInfo.ConvertTime(at, zone):ddd d MMM HH:mm} at the latest."
        : $"Put right now, it would still have no latest in this climate.";
}
