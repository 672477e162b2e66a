using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Learning;
using CureWatch.Panels;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Bays;

public class LearningTests
{
    private const double Minute = 1 / 60.0;

    [Theory]
    [InlineData(0.7)]
    [InlineData(1.0)]
    [InlineData(1.6)]
    public void Flash_SeenInTheSheetsClimate_TeachesItsRatio(double minutes)
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(0.5, Did.Applied).Tap(0.5 + (minutes * Minute), Did.Flashed).Steady(1 + Minute, 2);
        Lesson lesson = Assert.Single(LessonsOf(shop));
        Assert.Equal(Math.Log(minutes), lesson.LnRatio!.Value, 6);
        Assert.Equal(("bay-1", TestShop.At(0.5)), (lesson.Bay, lesson.From));
    }

    // 10 °C and 50 % by the sheet's law of one row: E 43 kJ/mol and m 0.2 are the priors, so k = exp(43000/R (1/293.15 − 1/283.15)).
    [Fact]
    public void Flash_SeenInTheCold_IsJudgedByTheColdersRate()
    {
        double rate = Math.Exp(43_000 / 8.314462618 * ((1 / 293.15) - (1 / 283.15)));
        TestShop shop = new TestShop().Steady(0, 1, airC: 10).Tap(0.5, Did.Applied).Tap(0.5 + (2.5 * Minute), Did.Flashed).Steady(1 + Minute, 2, airC: 10);
        Assert.Equal(Math.Log(2.5 * rate), Assert.Single(LessonsOf(shop)).LnRatio!.Value, 3);
    }

    [Fact]
    public void Tap_TeachesAQuarterOfAnHourLater_NotBefore()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1 + (2 * Minute), Did.Flashed);
        Assert.Empty(LessonsOf(shop.Steady(1 + (3 * Minute), 1 + (16 * Minute))));
        Assert.Single(LessonsOf(shop.Until(1 + (17.1 * Minute))));
    }

    [Fact]
    public void Levelling_TeachesNothing()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(0.5, Did.Applied).Tap(0.5 + (2 * Minute), Did.Levelled).Steady(1 + Minute, 2);
        Assert.Empty(shop.Shop.Learning);
    }

    [Fact]
    public void Flash_InAGap_IsCountedAndTeachesNothing()
    {
        TestShop shop = new TestShop().Steady(0, 0.45).Tap(0.5, Did.Applied).Tap(0.5 + (2 * Minute), Did.Flashed).Steady(0.6, 2);
        LearningReport report = Assert.Single(LearningReport.Of(shop.Shop));
        Assert.Equal((1, null), (report.Unwatched, report.Effect));
    }

    [Fact]
    public void Flash_OfEverySection_TeachesFromTheLastOneWiped()
    {
        TestShop shop = new TestShop(sections: 3).Steady(0, 1)
            .Tap(0.5, Did.Applied, section: 1).Tap(0.52, Did.Applied, section: 2).Tap(0.54, Did.Applied, section: 3)
            .Tap(0.54 + (1.2 * Minute), Did.Flashed).Steady(1 + Minute, 2);
        Lesson lesson = Assert.Single(LessonsOf(shop));
        Assert.Equal(3, lesson.Section);
        Assert.Equal(Math.Log(1.2), lesson.LnRatio!.Value, 5);
    }

    [Fact]
    public void Flash_OfALayerNobodyNamed_TeachesOfTheOutermost()
    {
        TestShop shop = new TestShop(layers: 2).Steady(0, 1).Tap(0.5, Did.Applied).Tap(0.6, Did.Levelled).Steady(1 + Minute, 2)
            .Tap(2, Did.Applied, layer: 2).Tap(2 + (1.3 * Minute), Did.Flashed).Steady(2 + (2 * Minute), 3);
        Lesson lesson = Assert.Single(LessonsOf(shop));
        Assert.Equal((2, TestShop.At(2)), (lesson.Layer, lesson.From));
    }

    [Fact]
    public void Correction_ToldHoursLater_ReplacesTheLesson()
    {
        TestShop right = Day().Tap(0.5 + (1.1 * Minute), Did.Flashed).Steady(1 + Minute, 4);
        TestShop corrected = Day().Tap(0.5 + (3 * Minute), Did.Flashed, id: "slip").Steady(1 + Minute, 3)
            .Tap(0.5 + (1.1 * Minute), Did.Flashed, reportedHour: 3, corrects: "slip").Steady(3 + Minute, 4);
        Assert.Equal(About(right), About(corrected));
        TestShop takenBack = Day().Tap(0.5 + (3 * Minute), Did.Flashed, id: "slip").Steady(1 + Minute, 3)
            .Tap(0.6, Did.Levelled, reportedHour: 3, corrects: "slip").Steady(3 + Minute, 4);
        Assert.Null(About(takenBack).Flash);

        static TestShop Day() => new TestShop().Steady(0, 1).Tap(0.5, Did.Applied);
        static Learnt About(TestShop shop) => shop.Shop.Learning[("paint", 1)].In("bay-1", TestShop.At(4));
    }

    [Theory]
    [InlineData(0.6)]
    [InlineData(1.7)]
    public void LearntFlash_MovesTheOpeningAndNeverLevelByOrRecoatByLater(double factor)
    {
        CoatReport bySheet = Taught(1, taps: 0).Report, learnt = Taught(factor, taps: 20).Report;
        Assert.Null(bySheet.BegunWith.Flash);
        (TimeBounds sheetOpens, TimeBounds? sheetCloses) = Since(bySheet, WindowStage.LevelOff);
        (TimeBounds opens, TimeBounds? closes) = Since(learnt, WindowStage.LevelOff);
        double moved = (opens.Likely!.Value - TestShop.Start) / (sheetOpens.Likely!.Value - TestShop.Start);
        Assert.InRange(moved - learnt.BegunWith.Flash!.Factor, -0.003, 0.003);
        Assert.InRange(moved / factor, 0.93, 1.07);
        double closed = (closes!.Likely!.Value - TestShop.Start) / (sheetCloses!.Likely!.Value - TestShop.Start);
        Assert.InRange(closed - Math.Min(1, moved), -0.003, 0.003);
        Assert.True(closes.Earliest <= sheetCloses.Earliest && closes.Likely <= sheetCloses.Likely && closes.Latest <= sheetCloses.Latest);
        Assert.All(
            new[] { WindowStage.Recoat, WindowStage.KeepDry, WindowStage.NoWash, WindowStage.FullCure },
            stage => Assert.Equal(Since(bySheet, stage), Since(learnt, stage)));
    }

    // The sheet's flash runs from one minute to three: taps are followed from half a minute to three, and level-by is never later than the sheet's.
    [Theory]
    [InlineData(0.2, 0.5)]
    [InlineData(8, 3)]
    public void TapsThatDisagreeWithTheSheet_AreFollowedToTheEndOfTheirReachAndTold(double factor, double followed)
    {
        CoatReport bySheet = Taught(1, taps: 0).Report;
        (TestShop shop, CoatReport learnt) = Taught(factor, taps: 12);
        Assert.Equal(followed, learnt.BegunWith.Flash!.Factor, 6);
        Assert.Equal(followed, Opens(learnt) / Opens(bySheet), 2);
        LearningReport report = Assert.Single(LearningReport.Of(shop.Shop));
        Assert.True(report.Disagrees);
        Assert.Equal(followed, report.Applied, 6);
        Assert.False(report.Effect!.Factor >= 0.5 && report.Effect.Factor <= 3);
        Assert.True(Since(learnt, WindowStage.LevelOff).Closes!.Latest <= Since(bySheet, WindowStage.LevelOff).Closes!.Latest);

        static double Opens(CoatReport coat) => (Since(coat, WindowStage.LevelOff).Opens.Likely!.Value - TestShop.Start).TotalMinutes;
    }

    [Theory]
    [InlineData(0.6)]
    [InlineData(2.5)]
    public void TapsWithinReachOfTheSheet_AreFollowedAsTheyAre(double factor)
    {
        LearningReport report = Assert.Single(LearningReport.Of(Taught(factor, taps: 12).Shop.Shop));
        Assert.False(report.Disagrees);
        Assert.Equal(report.Effect!.Factor, report.Applied);
        Assert.InRange(report.Applied / factor, 0.93, 1.07);
    }

    /// <summary>A window as if the coat had been wiped at the start of the day, to the second.</summary>
    private static (TimeBounds Opens, TimeBounds? Closes) Since(CoatReport coat, WindowStage stage)
    {
        Window window = coat.Windows.Single(w => w.Stage == stage);
        return (Moved(window.OpensAt)!, Moved(window.ClosesAt));

        TimeBounds? Moved(TimeBounds? at) => at is null ? null : new TimeBounds(One(at.Earliest), One(at.Likely), One(at.Latest));

        DateTimeOffset? One(DateTimeOffset? at) => at is { } instant
            ? TestShop.Start + TimeSpan.FromSeconds(Math.Round((instant - coat.Coat.StartedAt).TotalSeconds, 1))
            : null;
    }

    [Fact]
    public void Coat_KeepsWhatWasKnownWhenItWasBegun()
    {
        (TestShop shop, _) = Taught(0.6, taps: 3);
        Learnt begun = shop.Report.Surfaces[0].Coats[0].BegunWith;
        Window before = shop.Window(WindowStage.LevelOff);
        double last = OtherCars(shop, "later", (shop.Shop.Now - TestShop.Start).TotalHours + Minute, 20, 1.6);
        shop.Steady(last, last + 1);
        Assert.NotEqual(begun, shop.Shop.Learning[("paint", 1)].In("bay-1", shop.Shop.Now));
        Assert.Equal(begun, shop.Report.Surfaces[0].Coats[0].BegunWith);
        Assert.Equal(before.OpensAt, shop.Window(WindowStage.LevelOff).OpensAt);
    }

    [Fact]
    public void AnotherRevision_StartsAnew()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(0.5, Did.Applied).Tap(0.5 + (2 * Minute), Did.Flashed).Steady(1 + Minute, 2);
        shop.Take(new Message.SheetAdded(TestShop.Paint() with { Revision = 2 }, TestShop.At(2)));
        Assert.NotNull(BegunWith(1).Flash);
        Assert.Equal(Learnt.Nothing, BegunWith(2));

        Learnt BegunWith(int revision)
        {
            var surface = new Surface("roof", Material.Steel, null, Place.Outside, "paint", revision, 1, 1);
            shop.Take(new Message.JobStarted(new Job($"job-r{revision}", "bay-1", null, null, [surface]), TestShop.At(2)));
            shop.Take(new Message.Tapped($"job-r{revision}", new Tap("a", TestShop.At(2), TestShop.At(2), null, Did.Applied)));
            return JobReport.Of(shop.Shop, $"job-r{revision}").Surfaces[0].Coats[0].BegunWith;
        }
    }

    // What a coat would have that is not begun: whoever plans a pass is told what the shop knows, not what it knew.
    [Fact]
    public void Coat_ThatIsNotBegun_HasWhatIsKnownNow()
    {
        (TestShop shop, _) = Taught(0.6, taps: 5);
        var coat = new Coat(shop.Shop.Jobs["job-1"].Job.Surfaces[0], 2, 1, shop.Shop.Now, shop.Shop.Now);
        double flash = shop.Shop.LawsOf("job-1", coat).Flash!.Milestone.ReferenceHours;
        Assert.Equal(shop.Shop.Learning[("paint", 1)].In("bay-1", shop.Shop.Now).Flash!.Factor, flash / shop.Shop.LawsOf(coat).Flash!.Milestone.ReferenceHours, 9);
    }

    [Fact]
    public void Reset_StartsAnewAndCoatsKeepWhatTheyWereBegunWith()
    {
        (TestShop shop, CoatReport coat) = Taught(0.6, taps: 5);
        shop.Take(new Message.LearningReset("paint", null, shop.Shop.Now));
        Assert.Empty(LearningReport.Of(shop.Shop));
        Assert.Equal(coat.BegunWith, shop.Report.Surfaces[0].Coats[0].BegunWith);
        Assert.Equal(Learnt.Nothing, shop.Shop.Learning[("paint", 1)].In("bay-1", shop.Shop.Now));
    }

    private static ImmutableArray<Lesson> LessonsOf(TestShop shop) =>
        shop.Shop.Learning.GetValueOrDefault(("paint", 1))?.Flash.Lessons ?? [];

    /// <summary>A car whose bonnet is wiped after those of other cars flashed at a part of the sheet's time.</summary>
    private static (TestShop Shop, CoatReport Report) Taught(double factor, int taps)
    {
        TestShop shop = new TestShop().Steady(0, 0.5);
        double hour = OtherCars(shop, "other", 0.5 + Minute, taps, factor);
        shop.Steady(hour, hour + 0.5).Tap(hour + 0.5, Did.Applied).Steady(hour + 0.5 + Minute, hour + 0.5 + (2 * Minute));
        return (shop, shop.Report.Surfaces[0].Coats[0]);
    }

    /// <summary>Half an hour a car.</summary>
    private static double OtherCars(TestShop shop, string name, double hour, int cars, double factor)
    {
        var surface = new Surface("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 1, 1);
        for (int i = 0; i < cars; i++, hour += 0.5)
        {
            string job = $"{name}-{i}";
            shop.Take(new Message.JobStarted(new Job(job, "bay-1", null, null, [surface]), TestShop.At(hour)));
            Told("applied", hour, Did.Applied);
            for (int minute = 0; minute < 30; minute++)
            {
                shop.Read(hour + (minute * Minute), 20, 50);
                if ((int)factor == minute)
                {
                    Told("flashed", hour + (factor * Minute), Did.Flashed);
                }
            }

            void Told(string id, double at, Did did) =>
                shop.Take(new Message.Tapped(job, new Tap(id, TestShop.At(at), TestShop.At(at), null, did)));
        }

        return hour;
    }
}
