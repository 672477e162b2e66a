using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Learning;

namespace CureWatch.Bays;

/// <summary>When to draw lessons from a job's taps, and what its coats were begun with.</summary>
/// <param name="DrawAt">When the taps that were told since are old enough; null where they were drawn from.</param>
/// <param name="Begun">What was known when each coat was begun: it keeps that, however much is learnt while it cures.</param>
public sealed record JobLessons(DateTimeOffset? DrawAt, ImmutableDictionary<CoatKey, Learnt> Begun)
{
    /// <summary>A job nobody told anything about.</summary>
    public static JobLessons None { get; } = new(null, ImmutableDictionary<CoatKey, Learnt>.Empty);

    /// <summary>A job at its beginning.</summary>
    /// <param name="begun">What its coats were begun with where they were first lived through; null where that is not told.</param>
    /// <returns>The lessons.</returns>
    public static JobLessons At(ImmutableDictionary<CoatKey, Learnt>? begun) => begun is null ? None : None with { Begun = begun };

    /// <summary>What was known when a coat was begun.</summary>
    /// <param name="job">The job's id.</param>
    /// <param name="coat">The coat.</param>
    /// <returns>Nothing but the sheet where it is not known.</returns>
    public Learnt BegunWith(string job, Coat coat) => Begun.GetValueOrDefault(CoatKey.Of(job, coat)) ?? Learnt.Nothing;

    /// <summary>Takes down that a tap was told.</summary>
    internal JobLessons Told(Shop shop, JobState job)
    {
        ImmutableDictionary<CoatKey, Learnt> begun = Begun;
        foreach (SurfaceStory story in job.Stories)
        {
            foreach (Coat coat in story.Coats)
            {
                CoatKey key = CoatKey.Of(job.Job.Id, coat);
                bool lives = story.Living.Any(c => c.Layer == coat.Layer && c.Section == coat.Section);
                begun = !lives ? begun.Remove(key)
                    : begun.ContainsKey(key) ? begun
                    : begun.Add(key, shop.LearntAbout(coat.Surface.SheetOf(coat.Layer), BayAt(shop, job, story, coat.StartedAt), coat.StartedAt));
            }
        }

        bool teaches = DrawAt is null && job.Told.Any(t => t.Did is Did.Flashed or Did.Dried);
        return new JobLessons(teaches ? shop.Now + Lesson.Wait : DrawAt, begun);
    }

    private static string BayAt(Shop shop, JobState job, SurfaceStory story, DateTimeOffset at) =>
        Stay.Of(shop, job.Job, story).Last(s => s.From <= at).Bay ?? "";
}
