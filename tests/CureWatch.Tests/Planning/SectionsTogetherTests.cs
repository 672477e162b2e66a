using System.Collections.Immutable;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Planning;

/// <summary>One section that was done over again does not keep the others waiting until they have closed. Common practice, no source.</summary>
public class SectionsTogetherTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Sections_ThatHaveATimeInCommon_AreDoneTogether() => Assert.Equal([1, 2, 3], Of((-1, 3), (0.5, 4), (1, 5)));

    [Fact]
    public void Sections_ThatAreOpen_GoBeforeOneThatOpensWhenTheyHaveClosed() => Assert.Equal([1, 2], Of((-1, 1), (-0.9, 1.1), (2, 4)));

    [Fact]
    public void Sections_ThatOpenFirst_AreWaitedFor() => Assert.Equal([2, 3], Of((5, 7), (1, 3), (1.2, 3.2)));

    [Fact]
    public void Section_ThatHasClosed_KeepsNoOtherWaiting() => Assert.Equal([2], Of((-5, -1), (-0.5, 2)));

    // They had had a time in common, and were held back by it when it was over.
    [Fact]
    public void Section_ThatHasClosedBeforeTheOthers_KeepsThemNotWaiting() => Assert.Equal([2, 3], Of((-5, -0.1), (-4.5, 0.4), (-4, 0.5)));

    [Fact]
    public void Sections_ThatHaveAllClosed_AreAllTold() => Assert.Equal([1, 2], Of((-5, -1), (-4, -0.5)));

    [Fact]
    public void Sections_WithoutAnEnd_WaitForTheLast() => Assert.Equal([1, 2], Of((-1, null), (6, null)));

    // Too unsure, or in a climate in which it never opens: the section is there all the same, and whoever asks is told why.
    [Fact]
    public void Section_ThatMayHaveNoTime_IsToldAllTheSame()
    {
        var wide = new Window(WindowStage.Recoat, new TimeBounds(Now, Now.AddHours(1), Now.AddHours(3)), new TimeBounds(Now.AddHours(2), Now.AddHours(4), null), WindowState.Upcoming);
        var never = new Window(WindowStage.Recoat, new TimeBounds(null, null, null), null, WindowState.Upcoming);
        Assert.Equal([1], SectionsTogether.Of([(1, new BelowCoat(wide, HasToBeLevelled: false, IsFoundClear: false))], Now));
        Assert.Equal([1], SectionsTogether.Of([(1, new BelowCoat(never, HasToBeLevelled: false, IsFoundClear: false))], Now));
        Assert.Equal([1, 2], SectionsTogether.Of([(1, null), (2, null)], Now));
    }

    private static ImmutableArray<int> Of(params (double Opens, double? Closes)[] sections) => SectionsTogether.Of(
        [.. sections.Select((s, i) => (i + 1, (BelowCoat?)new BelowCoat(Recoat(s.Opens, s.Closes), HasToBeLevelled: false, IsFoundClear: false)))], Now);

    private static Window Recoat(double opens, double? closes) =>
        new(WindowStage.Recoat, TimeBounds.Known(Now.AddHours(opens)), closes is { } at ? TimeBounds.Known(Now.AddHours(at)) : null, WindowState.Open);
}
