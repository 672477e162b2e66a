using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.TimeWindows.Coated;

namespace CureWatch.Tests.TimeWindows;

/// <summary>Flash and level-off, by the states and bounds people script against: flash in 1 to 3 min, level within 8.</summary>
public class LevelOffWindowTests
{
    [Fact]
    public void LevelOff_OpensAtTheBeginningOfFlash_AndClosesAtLevelBy()
    {
        Window window = Coat().Windows(0.01).LevelOff!;
        AssertNear([1 / Factor95, 1, Factor95], window.OpensAt.Earliest, window.OpensAt.Likely, window.OpensAt.Latest);
        AssertNear([8 / Factor95, 8, 8 * Factor95], window.ClosesAt!.Earliest, window.ClosesAt.Likely, window.ClosesAt.Latest);
        Assert.False(window.JudgeByEye);
    }

    // 8 min / 1.179 = 6.79 min; the window from 1 min to there closes in its last third, from 4.86 min.
    [Theory]
    [InlineData(0.5, WindowState.Upcoming)]
    [InlineData(0.95, WindowState.Upcoming)]
    [InlineData(1, WindowState.Open)]
    [InlineData(4.8, WindowState.Open)]
    [InlineData(4.9, WindowState.Closing)]
    [InlineData(6.78, WindowState.Closing)]
    [InlineData(6.79, WindowState.Missed)]
    [InlineData(600, WindowState.Missed)]
    public void LevelOff_NotLevelled_IsWhereTheClockIs(double minute, WindowState expected) => Assert.Equal(expected, Coat().Windows(minute).LevelOff!.State);

    [Theory]
    [InlineData(5, IfMissed.Hold, WindowState.Done, false)]
    [InlineData(6.78, IfMissed.Hold, WindowState.Done, false)]
    [InlineData(6.79, IfMissed.Hold, WindowState.Missed, true)]
    [InlineData(6.79, IfMissed.Note, WindowState.Done, true)]
    public void LevelOff_Levelled_IsDoneByTheFastBoundOfLevelBy(double minute, IfMissed ifMissed, WindowState expected, bool isLate)
    {
        CoatWindows windows = Coat(levelledMinute: minute).Windows(60, TestShop.Paint(ifMissed: ifMissed));
        Assert.Equal((expected, isLate), (windows.LevelOff!.State, windows.WasLevelledLate));
    }

    // Flash opens by 1.18 min at the slow bound. Level-by 1.5 min closes at 1.27 min at the fast bound, 1.3 min at 1.10 min.
    [Theory]
    [InlineData(1.5, false)]
    [InlineData(1.3, true)]
    public void LevelOff_WhereTheSlowOpeningPassesTheFastClosing_IsJudgedByEye(double levelByMinutes, bool expected)
    {
        ProductSheet sheet = Sheet(
            TestShop.Row(Stage.Flash, Mechanism.Evaporation, 1 / 60.0, 3 / 60.0), TestShop.Row(Stage.LevelBy, Mechanism.Evaporation, levelByMinutes / 60));
        Assert.Equal(expected, Coat().Windows(0.01, sheet).LevelOff!.JudgeByEye);
    }

    [Fact]
    public void Section_CountsLevelByFromItsFirstWipe_AndOpeningFromItsLast()
    {
        Window window = Coat(appliedMinute: 2).Windows(2.5).LevelOff!;
        Assert.Equal(3, Minutes(window.OpensAt.Likely)!.Value, Near);
        Assert.Equal(8, Minutes(window.ClosesAt!.Likely)!.Value, Near);
    }

    [Fact]
    public void Rewet_StartsANewEvaporationClock()
    {
        Window window = (Coat() with { FirstWipeAt = At(20), LastWipeAt = At(21) }).Windows(21.5).LevelOff!;
        Assert.Equal(22, Minutes(window.OpensAt.Likely)!.Value, Near);
        Assert.Equal(28, Minutes(window.ClosesAt!.Likely)!.Value, Near);
        Assert.Equal(WindowState.Upcoming, window.State);
    }

    [Fact]
    public void SeenToHaveFlashed_OpensAtOnce_ButNeverLater()
    {
        Window early = (Coat() with { FlashedAt = At(0.5) }).Windows(0.6).LevelOff!, late = (Coat() with { FlashedAt = At(3) }).Windows(3.1).LevelOff!;
        Assert.Equal((0.5, WindowState.Open), (Minutes(early.OpensAt.Latest), early.State));
        Assert.Equal(1, Minutes(late.OpensAt.Likely)!.Value, Near);
        Assert.Equal(8, Minutes(early.ClosesAt!.Likely)!.Value, Near);
    }

    [Theory]
    [InlineData(0.9, WindowState.Open)]
    [InlineData(1.1, WindowState.Closing)]
    [InlineData(1.2, WindowState.Done)]
    public void Flash_RunsFromTheLastWipeToTheOpeningOfLevelOff(double minute, WindowState expected)
    {
        Window flash = Coat().Windows(minute).All.Single(w => w.Stage == WindowStage.Flash);
        Assert.Equal(expected, flash.State);
        Assert.Equal(0, Minutes(flash.OpensAt.Likely));
        Assert.Equal(1, Minutes(flash.ClosesAt!.Likely)!.Value, Near);
    }

    [Fact]
    public void Flash_OfALevelledCoat_IsDone() =>
        Assert.Equal(WindowState.Done, Coat(levelledMinute: 0.8).Windows(0.9).All.Single(w => w.Stage == WindowStage.Flash).State);

    [Fact]
    public void SheetWithoutLevelBy_ClosesAtTheUsualEndOfFlash()
    {
        Window window = Coat().Windows(0.01, Sheet(TestShop.Row(Stage.Flash, Mechanism.Evaporation, 1 / 60.0, 3 / 60.0))).LevelOff!;
        Assert.Equal(3, Minutes(window.ClosesAt!.Likely)!.Value, Near);
    }

    [Fact]
    public void SheetWithoutFlash_MayBeLevelledFromTheWipe()
    {
        CoatWindows windows = Coat(appliedMinute: 2).Windows(3, Sheet(TestShop.Row(Stage.LevelBy, Mechanism.Evaporation, 8 / 60.0)));
        Assert.Equal((2, WindowState.Open), (Minutes(windows.LevelOff!.OpensAt.Latest), windows.LevelOff.State));
        Assert.Equal([WindowStage.LevelOff], windows.All.Select(w => w.Stage));
    }

    [Fact]
    public void SheetWithNothingToLevel_HasNoSuchWindow()
    {
        CoatWindows windows = Coat().Windows(600, Sheet(TestShop.Row(Stage.KeepDry, Mechanism.Cure, 12)));
        Assert.Null(windows.LevelOff);
        Assert.False(windows.WasLevelledLate);
        Assert.Equal([WindowStage.KeepDry], windows.All.Select(w => w.Stage));
    }

    private const double Near = 1e-4;

    private static void AssertNear(double[] minutes, params DateTimeOffset?[] found) =>
        Assert.All(minutes.Zip(found), pair => Assert.Equal(pair.First, Minutes(pair.Second)!.Value, Near));
}
