using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Learning;

namespace CureWatch.Bays;

/// <summary>Draws lessons from the taps of jobs, a while after they were told, and has what was learnt follow from the taps that stand.</summary>
/// <remarks>All a job's lessons are drawn each time, so a correction leaves nothing of what it replaced.</remarks>
internal static class LessonDraws
{
    /// <summary>Decides which jobs teach something.</summary>
    public static IEnumerable<ShopEvent> Decide(Shop shop) => shop.DueJobs.NextAt <= shop.Now ? Due(shop) : [];

    /// <summary>Takes what a job teaches in the place of what it taught before.</summary>
    public static Shop Take(Shop shop, ShopEvent.LessonsDrawn drawn)
    {
        JobState job = shop.Jobs[drawn.Job];
        foreach ((string Product, int Revision) product in job.Job.Surfaces.SelectMany(s => s.Products()).Select(p => (p.Product, p.Revision)).Distinct())
        {
            ILookup<TaughtStage, Lesson> lessons =
                drawn.Lessons.Where(l => (l.Product, l.Revision) == product).ToLookup(l => l.Stage, l => l.Lesson);
            ProductLearning before = shop.Learning.GetValueOrDefault(product) ?? ProductLearning.Blank;
            ProductLearning after = before.Replace(drawn.Job, lessons, shop.Now);
            shop = after == before ? shop : shop with { Learning = shop.Learning.SetItem(product, after) };
        }

        return shop.With(job with { Lessons = job.Lessons with { DrawAt = drawn.NextAt } });
    }

    /// <summary>Has a product start anew: what was seen of it up to now counts no more, drawn or not.</summary>
    public static Shop Reset(Shop shop, ShopEvent.LearningReset reset) => shop with
    {
        Learning = shop.Laws.Keys.Where(l => l.Product == reset.Product).Aggregate(
            shop.Learning,
            (learning, key) => learning.SetItem(key, (learning.GetValueOrDefault(key) ?? ProductLearning.Blank).Reset(reset.Bay, reset.At))),
    };

    private static IEnumerable<ShopEvent> Due(Shop shop) =>
        from id in shop.DueJobs.DueBy(shop.Now)
        let job = shop.Jobs[id]
        where job.Lessons.DrawAt <= shop.Now
        let tooYoung = job.Told.Where(t => IsTooYoung(t, shop.Now)).ToArray()
        select new ShopEvent.LessonsDrawn(
            id, Draw(shop, job), tooYoung.Length == 0 ? null : tooYoung.Max(t => t.ReportedAt) + Lesson.Wait);

    private static bool IsTooYoung(Tap tap, DateTimeOffset now) => tap.ReportedAt + Lesson.Wait > now;

    private static ImmutableArray<DrawnLesson> Draw(Shop shop, JobState job) =>
        [.. new LessonDrawing(shop, job, job.Told.RemoveAll(t => IsTooYoung(t, shop.Now))).All()];
}

/// <summary>A lesson, and what it is about.</summary>
/// <param name="Product">The product.</param>
/// <param name="Revision">Its revision.</param>
/// <param name="Stage">The stage.</param>
/// <param name="Lesson">The lesson.</param>
public sealed record DrawnLesson(string Product, int Revision, TaughtStage Stage, Lesson Lesson);
