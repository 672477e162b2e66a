using System.Collections.Immutable;

namespace CureWatch.Learning;

/// <summary>What people taught about one stage of a product.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="Settled">What follows from lessons that can change no more.</param>
/// <param name="SettledTo">No lesson up to here comes or goes any more.</param>
/// <param name="Lessons">The lessons after that, in the order they happened: a correction may still replace one of them.</param>
/// <param name="Known">What follows from all of them.</param>
public sealed record StageLearning(TaughtStage Stage, Effects Settled, DateTimeOffset SettledTo, ImmutableArray<Lesson> Lessons, Effects Known)
{
    /// <summary>How long a lesson can be corrected. Source (choice): longer than a car stays, short enough to be kept one by one.</summary>
    public static readonly TimeSpan Open = TimeSpan.FromDays(14);

    /// <summary>The most lessons that are kept one by one. Source (choice): a busy fortnight of one product.</summary>
    public const int MostOpen = 1024;

    /// <summary>Before anybody tapped.</summary>
    /// <param name="stage">The stage.</param>
    /// <returns>The learning.</returns>
    public static StageLearning Blank(TaughtStage stage)
    {
        var unknown = Effects.Unknown(Expectation.Of(stage));
        return new StageLearning(stage, unknown, DateTimeOffset.MinValue, [], unknown);
    }

    /// <summary>Puts what a job teaches in the place of what it taught before.</summary>
    /// <param name="job">The job's id.</param>
    /// <param name="drawn">Every lesson of its standing taps.</param>
    /// <param name="now">The present.</param>
    /// <returns>The learning; a correction leaves no trace of what it replaced.</returns>
    public StageLearning Replace(string job, IEnumerable<Lesson> drawn, DateTimeOffset now)
    {
        ImmutableArray<Lesson> lessons =
            [.. Lessons.Where(l => l.Job != job).Concat(drawn.Where(IsOpen)).Order(Lesson.Order)];
        if (lessons.SequenceEqual(Lessons))
        {
            return this;
        }

        int settled = Math.Max(lessons.Length - MostOpen, lessons.Count(l => l.At < now - Open));
        return (this with { Lessons = lessons }).Settle(settled);
    }

    /// <summary>Forgets everything, or what concerns one bay.</summary>
    /// <param name="bay">The bay; null for everything.</param>
    /// <param name="now">The present: what was seen up to now counts no more.</param>
    /// <returns>The learning. What a bay's observations have said about the product as a whole stays.</returns>
    public StageLearning Reset(string? bay, DateTimeOffset now)
    {
        if (bay is null)
        {
            return Blank(Stage) with { SettledTo = now };
        }

        StageLearning settled = Settle(Lessons.Length);
        Effects without = settled.Settled.Forget(bay, now, Expectation.Of(Stage));
        return settled with { Settled = without, Known = without };
    }

    /// <summary>What was known of the stage in a bay at an instant.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="at">The instant.</param>
    /// <returns>The effect, of the lessons that had been taken in by then; null where nobody had taught anything.</returns>
    public LearntEffect? In(string bay, DateTimeOffset at)
    {
        ImmutableArray<Lesson> taken = [.. Lessons.TakeWhile(l => l.At + Lesson.Wait <= at)];
        return (taken.Length == Lessons.Length ? Known : Weigh(taken).After(taken.Length)).In(bay, at, Expectation.Of(Stage));
    }

    private bool IsOpen(Lesson lesson) =>
        lesson.At > SettledTo && !(lesson.At <= Settled.ByBay.GetValueOrDefault(lesson.Bay)?.NotBefore);

    /// <summary>Settles the first of the lessons, weighed once more by all of them.</summary>
    private StageLearning Settle(int count)
    {
        Weighing weighing = Weigh(Lessons);
        return count == 0
            ? this with { Known = weighing.After(Lessons.Length) }
            : (this with { Settled = weighing.After(count), SettledTo = Lessons[count - 1].At, Lessons = Lessons[count..] }).Settle(0);
    }

    private Weighing Weigh(ImmutableArray<Lesson> lessons) => Weighing.Of(Settled, lessons, Expectation.Of(Stage));
}
