using CureWatch.Learning;

namespace CureWatch.Tests.Learning;

public class StageLearningTests
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private static Lesson Of(string job, double day, double? z, string bay = "bay-1") =>
        new(job, "bonnet", 1, 1, bay, Start.AddDays(day).AddMinutes(-2), Start.AddDays(day), z);

    private static Effects Known(IReadOnlyCollection<Lesson> lessons) =>
        Weighing.Of(Effects.Unknown(Expectation.Flash), [.. lessons], Expectation.Flash).After(lessons.Count);

    [Fact]
    public void Lessons_ToldInAnyOrder_GiveTheSame()
    {
        Lesson[] lessons = [.. Enumerable.Range(0, 8).Select(i => Of($"job-{i}", i * 0.3, 0.3 * Math.Sin(i), $"bay-{i % 3}"))];
        DateTimeOffset now = Start.AddDays(3);
        StageLearning forward = lessons.Aggregate(StageLearning.Blank(TaughtStage.Flash), (s, l) => s.Replace(l.Job, [l], now));
        StageLearning backward = lessons.Reverse().Aggregate(StageLearning.Blank(TaughtStage.Flash), (s, l) => s.Replace(l.Job, [l], now));
        Assert.Equal(forward.In("bay-1", now), backward.In("bay-1", now));
        Assert.Equal(8, forward.In("bay-1", now)!.Everywhere);
    }

    [Fact]
    public void Correction_LeavesNothingOfWhatItReplaced()
    {
        DateTimeOffset now = Start.AddDays(3);
        StageLearning right = Taught().Replace("job-b", [Of("job-b", 1, 0.1)], now);
        StageLearning corrected = Taught().Replace("job-b", [Of("job-b", 1, 1.4)], now).Replace("job-b", [Of("job-b", 1, 0.1)], now);
        StageLearning takenBack = corrected.Replace("job-b", [], now);
        Assert.Equal(right.In("bay-1", now), corrected.In("bay-1", now));
        Assert.Equal(Taught().In("bay-1", now), takenBack.In("bay-1", now));

        StageLearning Taught() => StageLearning.Blank(TaughtStage.Flash).Replace("job-a", [Of("job-a", 0, -0.2)], now).Replace("job-c", [Of("job-c", 2, 0)], now);
    }

    [Fact]
    public void Lessons_OfTwoYears_TakeNoMoreRoomThanThoseOfAFortnightAndSayAlmostTheSame()
    {
        StageLearning learning = StageLearning.Blank(TaughtStage.Flash);
        var all = new List<Lesson>();
        for (int day = 0; day < 730; day++)
        {
            Lesson lesson = Of($"job-{day}", day, -0.2 + (0.15 * Math.Cos(day)), $"bay-{day % 2}");
            learning = learning.Replace(lesson.Job, [lesson], lesson.At + Lesson.Wait);
            all.Add(lesson);
        }

        Assert.InRange(learning.Lessons.Length, 1, 20);
        DateTimeOffset now = Start.AddDays(731);
        LearntEffect known = learning.In("bay-1", now)!, atOnce = Known(all).In("bay-1", now, Expectation.Flash)!;
        Assert.Equal((atOnce.Here, atOnce.Everywhere), (known.Here, known.Everywhere));
        Assert.InRange(known.Mean - atOnce.Mean, -0.005, 0.005);
        Assert.InRange(known.Variance / atOnce.Variance, 0.8, 1.25);
        Assert.Equal(learning, learning.Replace("job-1", [], now));   // too late to take back
    }

    [Fact]
    public void Lessons_MoreThanAreKeptOneByOne_SayAlmostTheSame()
    {
        Lesson[] lessons = [.. Enumerable.Range(0, StageLearning.MostOpen + 50).Select(i => Of("job", i * 0.001, 0.1 * Math.Sin(i)) with { Section = i })];
        DateTimeOffset now = Start.AddDays(5);
        StageLearning learning = StageLearning.Blank(TaughtStage.Flash).Replace("job", lessons, now);
        Assert.Equal(StageLearning.MostOpen, learning.Lessons.Length);
        LearntEffect known = learning.In("bay-1", now)!, atOnce = Known(lessons).In("bay-1", now, Expectation.Flash)!;
        Assert.Equal(atOnce.Here, known.Here);
        Assert.InRange(known.Mean - atOnce.Mean, -0.001, 0.001);
        Assert.Equal(learning, learning.Replace("job", lessons, now));
    }

    [Fact]
    public void Reset_OfAProduct_ForgetsAllUpToThen()
    {
        DateTimeOffset now = Start.AddDays(1);
        StageLearning reset = StageLearning.Blank(TaughtStage.Flash).Replace("job-a", [Of("job-a", 0, -0.3)], now).Reset(null, now);
        Assert.Null(reset.In("bay-1", now));
        Assert.Null(reset.Replace("job-a", [Of("job-a", 0, -0.3)], now.AddHours(1)).In("bay-1", now.AddHours(2)));   // told again, it was seen before
        Assert.NotNull(reset.Replace("job-b", [Of("job-b", 1.5, -0.3)], now.AddDays(1)).In("bay-1", now.AddDays(2)));
    }

    [Fact]
    public void Reset_OfABay_KeepsWhatItSaidOfTheProductAndWhatOtherBaysSaid()
    {
        DateTimeOffset now = Start.AddDays(1);
        StageLearning taught = StageLearning.Blank(TaughtStage.Flash);
        for (int i = 0; i < 12; i++)
        {
            (string bay, double z) = i % 2 == 0 ? ("bay-1", -0.4) : ("bay-2", 0.1);
            taught = taught.Replace($"job-{i:00}", [Of($"job-{i:00}", i * 0.05, z, bay)], now);
        }

        StageLearning reset = taught.Reset("bay-1", now);
        Assert.Equal(taught.In("bay-2", now), reset.In("bay-2", now)! with { Everywhere = 12 });
        LearntEffect before = taught.In("bay-1", now)!, after = reset.In("bay-1", now)!;
        Assert.Equal((6, 0), (before.Here, after.Here));
        Assert.True(after.Variance > before.Variance && after.Mean > before.Mean);
        Assert.Equal(taught.In("bay-3", now)!.Mean, after.Mean, 12);
        Assert.Equal(reset, reset.Replace("job-00", [Of("job-00", 0, -0.4)], now));
    }

    // The shop's only bay was reset, and the first tap after it, which said "as the sheet", brought half of the old teaching back.
    [Fact]
    public void Reset_OfTheOnlyBayThatTaught_StartsTheProductAnew()
    {
        DateTimeOffset now = Start.AddDays(1);
        StageLearning taught = StageLearning.Blank(TaughtStage.Flash);
        for (int i = 0; i < 20; i++)
        {
            taught = taught.Replace($"job-{i:00}", [Of($"job-{i:00}", i * 0.04, -0.35)], now);
        }

        StageLearning reset = taught.Reset("bay-1", now);
        Assert.Null(reset.In("bay-1", now));
        Assert.Equal(0, reset.Replace("job-new", [Of("job-new", 1.5, 0)], now.AddDays(1)).In("bay-1", now.AddDays(2))!.Mean, 0.01);
    }
}
