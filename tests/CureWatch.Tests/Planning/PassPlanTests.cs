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

    // The pass is simulated a section further than planned, and where there is to be no end, for a thousand sections.
    [Fact]
    public void Pair_EqualsTheStepByStepSimulation_OnAHundredThousandRandomPasses() => Gen.Select(
            Gen.Select(Gen.Long[1, 40], Gen.Long[1, 40]), Gen.Select(Gen.Long[0, 150], Gen.Long[0, 300], Gen.Bool), Gen.OneOf(1L, 10_000L, 7_777_777L))
        .Sample(
            (pace, window, scale) =>
            {
                (long apply, long level) = (pace.Item1 * scale, pace.Item2 * scale);
                (long from, long to, bool endsInside) = (window.Item1 * scale, window.Item2 * scale, window.Item3);
                PassPlan plan = PassPlan.For(
                    new SectionPace(new TimeSpan(apply), new TimeSpan(level), TimeSpan.FromHours(1), people: 2),
                    new FlashWindow(new TimeSpan(from), new TimeSpan(to), endsInside));
                long lastStart = endsInside ? to - level : to;
                (long sections, long worstWait, long ends) = PairSimulation.Of(1_000, apply, level, [from], [lastStart]);
                return plan switch
                {
                    PassPlan.Endless endless => sections == 1_000 && endless.WorstWait.Ticks == worstWait,
                    PassPlan.Workable pass => (pass.Sections, pass.WorstWait.Ticks, pass.PerPass.Ticks) == (sections, worstWait, ends),
                    _ => sections == 0,
                };
            },
            iter: 100_000);

    [Fact]
    public void MixedPass_EqualsTheStepByStepSimulation() => Gen.Select(
            Gen.Select(Gen.Int[1, 9], Gen.Int[1, 9], Gen.Int[0, 4], Gen.Int[1, 2]), Gen.Select(Gen.Int[0, 30], Gen.Int[0, 60]).Array[1, 12])
        .Sample(
            (pace, windows) =>
            {
                (int apply, int level, int changeOver, int people) = pace;
                int sections = MixedPass.Sections(
                    new SectionPace(Minutes(apply), Minutes(level), Minutes(changeOver), people),
                    [.. windows.Select(w => new FlashWindow(Minutes(w.Item1), Minutes(w.Item2), endsInside: true))]);
                return sections == (people == 2
                    ? PairSimulation.Of(windows.Length, apply, level, [.. windows.Select(w => (long)w.Item1)], [.. windows.Select(w => (long)w.Item2 - level)]).Sections
                    : LongestByOne(apply, level, changeOver, windows));
            },
            iter: 20_000);

    [Fact]
    public void MixedPass_OfSectionsThatAreAlike_IsThePlannedOne() => Gen.Select(
            Gen.Select(Gen.Int[1, 9], Gen.Int[1, 9], Gen.Int[0, 4]), Gen.Select(Gen.Int[0, 20], Gen.Int[0, 60]), Gen.Int[1, 2])
        .Sample(
            (times, bounds, people) =>
            {
                (int apply, int level, int changeOver) = times;
                (int from, int to) = bounds;
                var pace = new SectionPace(Minutes(apply), Minutes(level), Minutes(changeOver), people);
                var window = new FlashWindow(Minutes(from), Minutes(to), endsInside: true);
                long planned = PassPlan.For(pace, window) switch
                {
                    PassPlan.Workable pass => pass.Sections,
                    PassPlan.Endless => long.MaxValue,
                    _ => 0,
                };
                return MixedPass.Sections(pace, [.. Enumerable.Repeat(window, 70)]) == Math.Min(70, planned);
            },
            iter: 20_000);

    /// <summary>A cold door among warm panels flashes late: the pass ends before it would let the first panel grab.</summary>
    [Fact]
    public void ColdPanel_CutsThePass()
    {
        var pace = new SectionPace(Minutes(1), Minutes(1), TimeSpan.Zero);
        FlashWindow warm = new(Minutes(1), Minutes(6), endsInside: true), cold = new(Minutes(12), Minutes(14), endsInside: true);
        Assert.Equal(6, MixedPass.Sections(pace, [warm, warm, warm, warm, warm, warm]));
        Assert.Equal(4, MixedPass.Sections(pace, [warm, warm, warm, cold, warm, warm])); // what lies behind the cold one waits for it
    }

    private static int LongestByOne(int apply, int level, int changeOver, (int From, int To)[] windows)
    {
        int fits = 0;
        for (int sections = 1; sections <= windows.Length; sections++)
        {
            int now = (sections * apply) + changeOver;
            bool isInTime = true;
            for (int i = 0; i < sections; i++)
            {
                now = Math.Max(now, ((i + 1) * apply) + windows[i].From);
                isInTime &= now - ((i + 1) * apply) <= windows[i].To - level;
                now += level;
            }

            fits = isInTime ? Math.Max(fits, sections) : fits;
        }

        return fits;
    }

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
