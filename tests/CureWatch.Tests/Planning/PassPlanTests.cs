using CsCheck;
using CureWatch.Planning;

namespace CureWatch.Tests.Planning;

public class PassPlanTests
{
    // Worked by hand from the rule "every wait inside the window"; minutes.
    [Theory]
    [InlineData(1.5, 1, 0, 1, 5, true, 3)]
    [InlineData(1, 2, 0.25, 1, 5, true, 2)]
    [InlineData(2, 1, 0.25, 0.5, 3, true, 1)]
    [InlineData(0.75, 1.25, 0.25, 2, 6, true, 4)]
    [InlineData(1, 1, 0, 3, 2, false, 0)]
    [InlineData(1, 1, 0, 0.5, 1.2, true, 0)]
    public void Sections_AreThoseWorkedByHand(
        double apply, double level, double changeOver, double flashFrom, double flashTo, bool endsInside, long sections)
    {
        PassPlan plan = PassPlan.For(
            new SectionPace(Minutes(apply), Minutes(level), Minutes(changeOver)),
            new FlashWindow(Minutes(flashFrom), Minutes(flashTo), endsInside));
        Assert.Equal(sections, (plan as PassPlan.Workable)?.Sections ?? 0);
    }

    // The scale makes ticks, milliseconds or odd lengths of the same small numbers, so that waits often meet the bound exactly.
    [Fact]
    public void Plan_EqualsTheStepByStepSimulation_OnAHundredThousandRandomPasses() => Gen.Select(
            Gen.Select(Gen.Long[1, 40], Gen.Long[1, 40], Gen.Long[0, 20]),
            Gen.Select(Gen.Long[0, 150], Gen.Long[0, 300], Gen.Bool),
            Gen.OneOf(1L, 10_000L, 7_777_777L))
        .Sample(
            (pace, window, scale) =>
            {
                (long apply, long level, long changeOver) = (pace.Item1 * scale, pace.Item2 * scale, pace.Item3 * scale);
                (long from, long to, bool endsInside) = (window.Item1 * scale, window.Item2 * scale, window.Item3);
                PassPlan plan = PassPlan.For(
                    new SectionPace(new TimeSpan(apply), new TimeSpan(level), new TimeSpan(changeOver)),
                    new FlashWindow(new TimeSpan(from), new TimeSpan(to), endsInside));
                long lastStart = endsInside ? to - level : to;
                PassPlan.Workable? expected = PassSimulation.Longest(apply, level, changeOver, from, lastStart) is { } best
                    ? new PassPlan.Workable(
                        best.Sections, new TimeSpan(best.Pass.WorstWait), new TimeSpan(best.Pass.Idle), new TimeSpan(best.Pass.Ends))
                    : null;
                return expected == plan as PassPlan.Workable;
            },
            iter: 100_000);

    [Theory]
    [InlineData(3, 2, 0, false, PassObstacle.WindowNeverOpen, 1)]
    [InlineData(1, 2, 3, false, PassObstacle.ChangeOverTooLong, 1)]
    [InlineData(1, 2, 0, true, PassObstacle.LevellingTooLong, 0.5)]
    public void NoSection_SaysWhyAndByHowMuch(
        double flashFrom, double flashTo, double changeOver, bool endsInside, PassObstacle because, double shortBy)
    {
        PassPlan plan = PassPlan.For(
            new SectionPace(Minutes(1), Minutes(1.5), Minutes(changeOver)),
            new FlashWindow(Minutes(flashFrom), Minutes(flashTo), endsInside));
        Assert.Equal(new PassPlan.Unworkable(because, Minutes(shortBy)), plan);
    }

    [Fact]
    public void Durations_AtTheirLongestAndShortest_DoNotOverflow()
    {
        var tick = new TimeSpan(1);
        PassPlan plan = PassPlan.For(
            new SectionPace(tick, tick, TimeSpan.Zero), new FlashWindow(TimeSpan.Zero, PlanningRange.Longest, endsInside: false));
        Assert.Equal(PlanningRange.Longest.Ticks + 1, Assert.IsType<PassPlan.Workable>(plan).Sections);
        Assert.IsType<PassPlan.Workable>(PassPlan.For(
            new SectionPace(PlanningRange.Longest, PlanningRange.Longest, PlanningRange.Longest),
            new FlashWindow(PlanningRange.Longest, PlanningRange.Longest, endsInside: false)));
    }

    [Theory]
    [InlineData(0, 1, 0)]
    [InlineData(1, 0, 0)]
    [InlineData(-1, 1, 0)]
    [InlineData(1, 1, -1)]
    [InlineData(1, 600_000, 0)]
    public void Pace_OutsideItsRange_IsRefused(double apply, double level, double changeOver) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new SectionPace(Minutes(apply), Minutes(level), Minutes(changeOver)));

    [Theory]
    [InlineData(-1, 1)]
    [InlineData(1, -1)]
    [InlineData(1, 600_000)]
    public void Window_OutsideItsRange_IsRefused(double from, double to) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new FlashWindow(Minutes(from), Minutes(to), endsInside: false));

    private static TimeSpan Minutes(double minutes) => TimeSpan.FromMinutes(minutes);
}
