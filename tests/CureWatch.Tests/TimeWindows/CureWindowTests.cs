using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.TimeWindows.Coated;

namespace CureWatch.Tests.TimeWindows;

/// <summary>Recoat (1 to 6 h), keep-dry (12 h), no-wash (120 h) and full cure (168 h), by the states and bounds people script against.</summary>
public class CureWindowTests
{
    private const double Levelled = 3, Hour = 60;
    private const double Near = 1e-3;

    // Opens at 1 h × 1.179, closes at 6 h / 1.179, each after the levelling; closing for the last half hour.
    [Theory]
    [InlineData(1.0, WindowState.Upcoming)]
    [InlineData(1.17, WindowState.Upcoming)]
    [InlineData(1.19, WindowState.Open)]
    [InlineData(4.58, WindowState.Open)]
    [InlineData(4.6, WindowState.Closing)]
    [InlineData(5.08, WindowState.Closing)]
    [InlineData(5.1, WindowState.Missed)]
    public void Recoat_IsOpenFromItsSlowOpening_ToItsFastClosing(double hour, WindowState expected) =>
        Assert.Equal(expected, Coat(levelledMinute: Levelled).Windows(Levelled + (hour * Hour)).Recoat!.State);

    [Theory]
    [InlineData(1.1, WindowState.Missed)]
    [InlineData(2, WindowState.Done)]
    [InlineData(5.08, WindowState.Done)]
    [InlineData(5.1, WindowState.Missed)]
    public void Recoat_WithTheNextLayerOn_IsJudgedByWhenThatWasBegun(double hour, WindowState expected) =>
        Assert.Equal(expected, (Coat(levelledMinute: Levelled) with { CoveredAt = At(Levelled + (hour * Hour)) }).Windows(600).Recoat!.State);

    [Fact]
    public void Recoat_WithOneEndOnly_IsOpenAtTheOther()
    {
        SheetStage flash = TestShop.Row(Stage.Flash, Mechanism.Evaporation, 1 / 60.0, 3 / 60.0);
        Window from = Coat(levelledMinute: Levelled).Windows(6000, Sheet(flash, TestShop.Row(Stage.RecoatFrom, Mechanism.Cure, 1))).Recoat!;
        Window by = Coat(levelledMinute: Levelled).Windows(Levelled, Sheet(flash, TestShop.Row(Stage.RecoatBy, Mechanism.Cure, 6))).Recoat!;
        Assert.Equal((WindowState.Open, true), (from.State, from.ClosesAt is null));
        Assert.Equal((WindowState.Open, Levelled), (by.State, Minutes(by.OpensAt.Latest)));
        Assert.Null(Coat().Windows(1, Sheet(flash)).Recoat);
    }

    // 12 h / 1.179 = 10.18 h, 12 h × 1.179 = 14.15 h.
    [Theory]
    [InlineData(0.001, WindowState.Open)]
    [InlineData(12, WindowState.Open)]
    [InlineData(12.01, WindowState.Closing)]
    [InlineData(14.14, WindowState.Closing)]
    [InlineData(14.15, WindowState.Done)]
    public void KeepDry_IsOpenFromTheLevelling_ClosingPastLikely_DonePastLatest(double hour, WindowState expected)
    {
        Window window = Coat(levelledMinute: Levelled).Windows(Levelled + (hour * Hour)).KeepDry!;
        Assert.Equal(expected, window.State);
        Assert.Equal(Levelled, Minutes(window.OpensAt.Earliest));
        Assert.Equal(Levelled + (12 * Hour / Factor95), Minutes(window.ClosesAt!.Earliest)!.Value, Near);
        Assert.Equal(Levelled + (12 * Hour * Factor95), Minutes(window.ClosesAt.Latest)!.Value, Near);
    }

    [Fact]
    public void NoWashAndFullCure_RunFromTheSameLevelling()
    {
        CoatWindows windows = Coat(levelledMinute: Levelled).Windows(60);
        Assert.Equal(Levelled + (120 * Hour), Minutes(windows.NoWash!.ClosesAt!.Likely)!.Value, Near);
        Assert.Equal(Levelled + (168 * Hour * Factor95), Minutes(windows.FullCure!.ClosesAt!.Latest)!.Value, Near);
        Assert.Equal(
            [WindowStage.Flash, WindowStage.LevelOff, WindowStage.Recoat, WindowStage.KeepDry, WindowStage.NoWash, WindowStage.FullCure],
            windows.All.Select(w => w.Stage));
    }

    [Fact]
    public void CureClock_NotLevelledYet_IsProjectedFromTheOpeningOfLevelOff()
    {
        Window window = Coat().Windows(0.5).KeepDry!;
        Assert.Equal(WindowState.Upcoming, window.State);
        Assert.Equal(1 / Factor95, Minutes(window.OpensAt.Earliest)!.Value, Near);
        Assert.Equal((1 / Factor95) + (12 * Hour / Factor95), Minutes(window.ClosesAt!.Earliest)!.Value, Near);
        Assert.Equal(1 + (12 * Hour), Minutes(window.ClosesAt.Likely)!.Value, Near);
        Assert.Equal(Factor95 + (12 * Hour * Factor95), Minutes(window.ClosesAt.Latest)!.Value, Near);
    }

    [Fact]
    public void CureClock_OfASheetWithoutFlash_StartsAtTheWipe_WhenverItIsLevelled()
    {
        ProductSheet sheet = Sheet(TestShop.Row(Stage.LevelBy, Mechanism.Evaporation, 8 / 60.0), TestShop.Row(Stage.KeepDry, Mechanism.Cure, 12));
        Assert.Equal(2, Minutes(Coat(appliedMinute: 2, levelledMinute: 6).Windows(60, sheet).KeepDry!.OpensAt.Likely));
    }

    [Fact]
    public void Ready_IsTheEndOfKeepDry_ElseTheLevelling_ElseItsOpening_ElseTheWipe()
    {
        SheetStage flash = TestShop.Row(Stage.Flash, Mechanism.Evaporation, 1 / 60.0, 3 / 60.0);
        Assert.Equal(Levelled + (12 * Hour), Minutes(Coat(levelledMinute: Levelled).Windows(60).ReadyAt!.Likely)!.Value, Near);
        Assert.Equal(Levelled, Minutes(Coat(levelledMinute: Levelled).Windows(60, Sheet(flash)).ReadyAt!.Latest));
        Assert.Equal(Factor95, Minutes(Coat().Windows(0.5, Sheet(flash)).ReadyAt!.Latest)!.Value, Near);
        Assert.Equal(2, Minutes(Coat(appliedMinute: 2).Windows(3, Sheet(TestShop.Row(Stage.NoWash, Mechanism.Cure, 12))).ReadyAt!.Latest));
    }

    [Fact]
    public void Wetted_AndNotDried_KeepDryHasNoEnd()
    {
        CoatWindows windows = Coat(levelledMinute: Levelled).Windows(60 * Hour, null, Wet(5 * Hour));
        Assert.Null(windows.KeepDry!.ClosesAt);
        Assert.Equal(WindowState.Open, windows.KeepDry.State);
        Assert.Null(windows.ReadyAt);
    }

    [Theory]
    [InlineData(AfterWetting.Restart, 18)]
    [InlineData(AfterWetting.Continue, 12 + (Levelled / Hour))]
    public void Wetted_AndDried_KeepDryDoesWhatTheSheetSays(AfterWetting afterWetting, double endHour)
    {
        CoatWindows windows = Coat(levelledMinute: Levelled).Windows(7 * Hour, TestShop.Paint(afterWetting: afterWetting), Wet(5 * Hour, 6 * Hour));
        Assert.Equal(endHour * Hour, Minutes(windows.KeepDry!.ClosesAt!.Likely)!.Value, Near);
        Assert.Single(windows.WettedInKeepDry);
    }

    [Fact]
    public void Wetted_Twice_KeepDryRestartsFromTheLastDrying_AlsoWherePastItsFirstEnd()
    {
        // The second one comes after 12 h, inside keep-dry only because the first one restarted it.
        CoatWindows windows = Coat(levelledMinute: Levelled).Windows(20 * Hour, null, Wet(5 * Hour, 6 * Hour), Wet(16 * Hour, 17 * Hour));
        Assert.Equal(29 * Hour, Minutes(windows.KeepDry!.ClosesAt!.Likely)!.Value, Near);
        Assert.Equal(2, windows.WettedInKeepDry.Length);
    }

    [Fact]
    public void Wetted_OutsideKeepDry_ChangesNothing()
    {
        CoatWindows windows = Coat(levelledMinute: Levelled).Windows(20 * Hour, null, Wet(-30, -20), Wet(15 * Hour));
        Assert.Empty(windows.WettedInKeepDry);
        Assert.Equal(WindowState.Done, windows.KeepDry!.State);
    }

    [Fact]
    public void ClosingFrom_IsTheLastThird_ButNoMoreThanHalfAnHour()
    {
        Assert.Equal(At(20), Window.ClosingFrom(At(0), At(30)));
        Assert.Equal(At(570), Window.ClosingFrom(At(0), At(600)));
        Assert.Equal(At(570), Window.ClosingFrom(null, At(600)));
        Assert.Equal(At(570), Window.ClosingFrom(At(620), At(600))); // it may have closed before anybody can rely on its being open
        Assert.Null(Window.ClosingFrom(At(0), null));
    }
}
