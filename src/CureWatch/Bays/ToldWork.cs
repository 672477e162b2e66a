using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Planning;

namespace CureWatch.Bays;

/// <summary>Washing or polishing that people told of a car: who else is open in its air is in danger.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="Bay">The bay.</param>
/// <param name="Work">The work.</param>
/// <param name="From">When it was told to have been done.</param>
/// <param name="To">When it counts as over: when the car was dried or wiped down, else after half an hour.</param>
public sealed record ToldWork(string Job, string Bay, HarmfulWork Work, DateTimeOffset From, DateTimeOffset To)
{
    /// <summary>How long it goes on, or hangs in the air, where nobody tells its end. Source (choice): common practice, no source.</summary>
    public static readonly TimeSpan Lasts = TimeSpan.FromMinutes(30);

    /// <summary>Keeps what people told lately of a job.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">The job, a tap taken down.</param>
    /// <returns>The shop.</returns>
    internal static Shop Follow(Shop shop, JobState job)
    {
        ImmutableArray<ToldWork> works = [.. shop.ToldWorks.Where(w => w.Job != job.Job.Id && w.To > shop.Now - Lasts), .. Of(shop, job)];
        return works.SequenceEqual(shop.ToldWorks) ? shop : shop with { ToldWorks = works };
    }

    private static IEnumerable<ToldWork> Of(Shop shop, JobState job)
    {
        ImmutableArray<Tap> told = job.Told.Any(t => t.Did is Did.Washed or Did.Polished && t.At > shop.Now - Lasts) ? Taps.Standing(job.Told) : [];
        foreach (Tap tap in told.Where(t => t.Did is Did.Washed or Did.Polished && t.At > shop.Now - Lasts))
        {
            Did ends = tap.Did == Did.Washed ? Did.Dried : Did.PanelWiped;
            DateTimeOffset? over = told.FirstOrDefault(t => t.Did == ends && t.At >= tap.At && (t.Surface is null || t.Surface == tap.Surface))?.At;
            SurfaceStory? story = job.Stories.FirstOrDefault(s => s.Surface.Id == tap.Surface) ?? job.Stories.FirstOrDefault();
            string? bay = story is null ? job.Job.Bay : Stay.Of(shop, job.Job, story).Last(s => s.From <= tap.At).Bay;
            if (bay is not null)
            {
                yield return new ToldWork(job.Job.Id, bay, tap.Did == Did.Washed ? HarmfulWork.Washing : HarmfulWork.Compounding, tap.At, over ?? tap.At + Lasts);
            }
        }
    }
}
