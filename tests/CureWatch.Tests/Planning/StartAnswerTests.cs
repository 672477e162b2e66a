using CureWatch.Curing;
using CureWatch.Planning;
using static CureWatch.Planning.StartReasonKind;
using static CureWatch.Planning.StartWeight;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>Every reason not to start: what brings it about, what does not yet, and whether waiting cures it.</summary>
public class StartAnswerTests
{
    [Fact]
    public void Start_WithNothingAgainstIt_IsYes_WithAPlan()
    {
        StartAnswer answer = StartAnswer.To(Fine, Day);
        Assert.Equal((StartVerdict.Yes, 0, null), (answer.Verdict, answer.Reasons.Length, answer.From));
        Assert.Equal(At(1.5 + 1 + 1 + (1 / 3.0)), answer.Plan!.DoneAt!.Value, TimeSpan.FromSeconds(1));
    }

    /// <summary>Each situation with the one reason it gives; a situation right beside it that gives none is in the table below.</summary>
    [Theory]
    [MemberData(nameof(Spoilt))]
    public void Start_Spoilt_SaysTheOneReason(string situation, StartReasonKind kind, StartWeight weight, string says)
    {
        StartAnswer answer = StartAnswer.To(StartSituations.Of(situation), Day);
        Assert.Equal([(kind, weight)], KindsOf(answer));
        StartReason reason = answer.Reasons[0];
        Assert.Contains(says, reason.Text.ToString(), StringComparison.Ordinal);
        Assert.Equal("bonnet", reason.Surface);
        Assert.Equal(weight == Waits, reason.Until is not null);
        Assert.Equal(weight switch { Stops => StartVerdict.No, Waits => StartVerdict.Wait, _ => StartVerdict.Yes }, answer.Verdict);
        Assert.Equal(reason.Until, answer.From);
        Assert.True(weight != Stops || reason.Help is not null || kind is BelowHeld or NothingLeft, "what no waiting cures says what does");
    }

    public static TheoryData<string, StartReasonKind, StartWeight, string> Spoilt => new()
    {
        { "cabin without a probe", Unwatched, Stops, "Nobody measures the cabin" },
        { "air silent", AirSilent, Stops, "last heard 09:20" },
        { "panel silent", PanelSilent, Stops, "Probe bonnet in bay-1 was last heard 09:20" },
        { "wet panel", Condensing, Stops, "bonnet is 9 °C, the dew point 9.3 °C" },
        { "wet elsewhere", Condensing, Stops, "the coldest panel is at or below the dew point since 09:30" },
        { "thin spread", SpreadThin, Waits, "is 2.9 K above the dew point of 9.3 °C" },
        { "spread thin at its bound", SpreadThin, Waits, "is 3.7 K above the dew point of 9.3 °C, may be as little as 2.7 K" },
        { "cold panel", PanelCold, Stops, "Bonnet is 9.9 °C, needs 10 °C" },
        { "cold panel in warm air", PanelCold, Waits, "Bonnet is 9.9 °C, needs 10 °C" },
        { "come in cold", Arrival, Waits, "came in cold, is likely 4 °C now and is 3 K above the dew point from 10:30 at the latest" },
        { "come in cold to damp air", Arrival, Stops, "does not get 3 K above the dew point in this air" },
        { "come in cold where a probe was before it", Arrival, Waits, "came in cold" },
        { "come in cold and still wet, not wiped", Arrival, Waits, "came in cold" },
        { "come in cold and wet", WasWet, Stops, "was not wiped down since it stays dry" },
        { "cold panel reckoned from the air", PanelCold, Stops, "panel not measured; reckoned from the air, which it lags, ± 2 K" },
        { "hot panel", PanelHot, Stops, "Bonnet is 30.1 °C, at most 30 °C" },
        { "hot panel taken from others", PanelHot, Stops, "taken from the panels that are, ± 2 K" },
        { "moist air", HumidityHigh, Stops, "is at 75.1 %, at most 75 %" },
        { "dry air", HumidityLow, Stops, "is at 29.9 %, at least 30 %" },
        { "lamp on", Lamp, Stops, "A lamp is on bonnet since 09:40" },
        { "lamp off, not measured", Lamp, Stops, "under a lamp until 09:50 and was not measured since" },
        { "lamp off, read hot", LampCoolDown, Waits, "from the lamp; work on it at 25 °C, from 10:02" },
        { "lamp off, not read, reckoned cool", Lamp, Stops, "under a lamp until 09:00 and was not measured since" },
        { "polished", PolishingHeat, Stops, "polished until 09:40 and was not measured since" },
        { "polished, measured too hot", PolishingHeat, Stops, "was 31 °C by hand 09:45" },
        { "washed", TrappedWater, Stops, "got wet 09:30 and nobody told that it was dried" },
        { "dried a moment ago", TrappedWater, Waits, "edges and trim drip until 10:25" },
        { "never wiped", NotWiped, Stops, "was not wiped down" },
        { "wiped long ago", NotWiped, Stops, "was wiped down 09:14, which counted until 09:59" },
        { "wiped and measured", NotWiped, Stops, "measured after that 09:55" },
        { "wiped and polished", PolishingHeat, Stops, "polished" },
        { "wiped before it was wet", WasWet, Stops, "Water condensed until 09:55" },
        { "wiped just now", WipeWet, Waits, "needs until 10:01 to leave" },
        { "layer below not levelled", BelowNotLevelled, Stops, "Layer 1 of bonnet is not levelled" },
        { "layer below held", BelowHeld, Stops, "Dust found" },
        { "recoat to come", RecoatUpcoming, Waits, "takes another layer from 10:30 to 12:00" },
        { "recoat over", RecoatMissed, Stops, "until 09:59 only" },
        { "recoat open", RecoatClosing, Notes, "until 12:00" },
        { "untimed level-off", JudgeByEye, Notes, "judge by eye" },
        { "cold night", Night, Notes, "9.5 °C (23:00), needs 10 °C" },
        { "wet night", Night, Stops, "-0.2 K above the dew point (23:30)" },
        { "nothing left", NothingLeft, Stops, "Every planned layer of bonnet is on" },
        { "no car yet", NotWiped, Notes, "told of a car that was begun" },
    };

    /// <summary>
    /// Who is asked to tell something is given the tap that does: nobody is left before a reason with nothing to press. Heat has to be measured, and
    /// levelling is next by itself.
    /// </summary>
    [Theory]
    [MemberData(nameof(Spoilt))]
    public void Start_Spoilt_NamesTheTapThatTellsItIsDone(string situation, StartReasonKind kind, StartWeight weight, string _)
    {
        StartReason reason = StartAnswer.To(StartSituations.Of(situation), Day).Reasons[0];
        bool asksForATap = weight == Stops && kind != BelowNotLevelled && reason.Help?.ToString().Contains("tell it", StringComparison.Ordinal) == true
            && !reason.Help.ToString().Contains("easure", StringComparison.Ordinal) && !reason.Help.ToString().Contains("Read it", StringComparison.Ordinal);
        Did? expected = kind switch
        {
            WasWet or NotWiped when asksForATap => Did.PanelWiped,
            TrappedWater when asksForATap => Did.Dried,
            Lamp when reason.Text.ToString().Contains("is on", StringComparison.Ordinal) => Did.LampOff,
            _ => null,
        };
        Assert.Equal(expected, reason.ToldBy);
        Assert.True(!asksForATap || reason.ToldBy is not null, reason.Help?.ToString());
    }

    [Theory]
    [InlineData("panel at its limit")]
    [InlineData("panel at its upper limit")]
    [InlineData("air at its limits")]
    [InlineData("wide spread")]
    [InlineData("come in cold, read warm by hand")]
    [InlineData("come in cold and wet, its probe says warm")]
    [InlineData("come in nobody knows how cold, where a probe is")]
    [InlineData("lamp off, reckoned cool")]
    [InlineData("polished, measured cool, wiped")]
    [InlineData("polished, measured twice, wiped")]
    [InlineData("polished, with a probe of its own")]
    [InlineData("dried long ago")]
    [InlineData("wiped 45 min ago")]
    [InlineData("wiped after it was wet")]
    [InlineData("cloth never wiped")]
    [InlineData("second layer not wiped")]
    [InlineData("recoat without an end")]
    [InlineData("cold night, dry before lock-up")]
    public void Start_JustInside_IsYes(string situation)
    {
        StartAnswer answer = StartAnswer.To(StartSituations.Of(situation), Day);
        Assert.Empty(answer.Reasons);
        Assert.Equal(StartVerdict.Yes, answer.Verdict);
    }

    [Fact]
    public void Reasons_AreAllThere_TheHardestFirst()
    {
        StartEvidence bad = OverFirst with
        {
            Air = Air(8, 80),
            Panel = Panel(5.2),
            Preparation = null,
            Wettings = [new Wetting(At(-60), null)],
            Next = SecondLayer(60, 300, levelled: true, "Dust found 09:00."),
            Night = Always(new NightAhead(2, At(13 * 60), 0.5, At(13 * 60), 0.2, At(13 * 60))),
        };
        StartAnswer answer = StartAnswer.To(bad with { Preparation = Wiped(-90, Did.Polished, -70) }, Day);
        Assert.Equal(
            [SpreadThin, PanelCold, PolishingHeat, HumidityHigh, TrappedWater, BelowHeld, RecoatUpcoming, Night],
            answer.Reasons.Select(r => r.Kind));
        Assert.Equal(StartVerdict.No, answer.Verdict);
        Assert.Equal(At(60), answer.From!.Latest);
        Assert.Equal(answer.Reasons.Select(r => r.Weight).Order(), answer.Reasons.Select(r => r.Weight));
        Assert.Equal(answer.Reasons, StartAnswer.To(bad with { Preparation = Wiped(-90, Did.Polished, -70) }, Day).Reasons);
    }

    [Fact]
    public void Wait_IsForTheLastOfWhatTimeCures()
    {
        StartAnswer answer = StartAnswer.To(
            Fine with { Preparation = Wiped(-1), Wettings = [new Wetting(At(-60), At(-10))] }, Day);
        Assert.Equal([(TrappedWater, Waits), (WipeWet, Waits)], KindsOf(answer));
        Assert.Equal((StartVerdict.Wait, At(20)), (answer.Verdict, answer.From!.Latest));
    }

    [Fact]
    public void WipeDown_ThatRunsOutBeforeWaitingIsOver_IsNoted()
    {
        StartAnswer answer = StartAnswer.To(Fine with { Preparation = Wiped(-40), Wettings = [new Wetting(At(-60), At(-10))] }, Day);
        Assert.Equal([(TrappedWater, Waits), (NotWiped, Notes)], KindsOf(answer));
        Assert.Contains("counts until 10:05", answer.Reasons[1].Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Habits_OfTheShop_Decide()
    {
        StartDay hasty = Day with { Habits = new WorkHabits(TimeSpan.FromMinutes(5), TimeSpan.Zero, TimeSpan.Zero, WorkHabits.Usual.Pace) };
        Assert.Equal([(NotWiped, Stops)], KindsOf(StartAnswer.To(Fine, hasty)));
        Assert.Empty(StartAnswer.To(Fine with { Preparation = Wiped(0), Wettings = [new Wetting(At(-60), At(0))] }, hasty).Reasons);
    }

    /// <summary>At 17:57 a coat of 3 min 50 s is not levelled by 18:00.</summary>
    [Theory]
    [InlineData(476.1, 0, new StartReasonKind[0])]
    [InlineData(477, 0, new[] { ClosingTime })]
    public void Start_TooLateToLevelBeforeLockUp_WaitsForTheNextDay(double minute, int _, StartReasonKind[] expected)
    {
        StartDay late = Day with { Now = At(minute) };
        StartAnswer answer = StartAnswer.To(Fine with { Preparation = null, Times = Same(OneCoat with { KeepDry = null }) }, late);
        Assert.Equal(expected, answer.Reasons.Select(r => r.Kind).Where(k => k != NotWiped));
        Assert.True(expected.Length == 0 || (answer.Verdict == StartVerdict.Wait && answer.From!.Latest == late.Next!.Opens));
    }

    [Fact]
    public void Start_WhileTheShopIsClosed_WaitsForItToOpen()
    {
        StartDay night = Day with { Now = At(600), Today = new ShopDay(At(22 * 60), At(32 * 60)), Next = new ShopDay(At(46 * 60), At(56 * 60)) };
        StartAnswer answer = StartAnswer.To(Fine with { Preparation = null }, night);
        Assert.Equal([(Closed, Waits), (NotWiped, Notes)], KindsOf(answer));
        Assert.Equal(At(22 * 60), answer.From!.Latest);
    }

    /// <summary>From 15:00 two layers with 1.2 h between are on by 16:20; from 17:30 the second falls into the next day.</summary>
    [Theory]
    [InlineData(5.0, 300, null)]
    [InlineData(17.0, 450, Notes)]
    [InlineData(5.0, 450, Waits)]
    public void SecondLayer_AfterLockUp_IsNotedWhereItsWindowLetsItWait_ElseItAllWaits(double recoatByHours, double minute, StartWeight? expected)
    {
        StartEvidence two = Fine with
        {
            Surface = Fine.Surface with { Layers = 2 },
            Preparation = null,
            Times = Same(OneCoat with { RecoatBy = TimeSpan.FromHours(recoatByHours), KeepDry = null }),
        };
        StartAnswer answer = StartAnswer.To(two, Day with { Now = At(minute) });
        Assert.Equal(expected, answer.Reasons.Where(r => r.Kind == ClosingTime).Select(r => (StartWeight?)r.Weight).SingleOrDefault());
    }

    [Fact]
    public void SecondLayer_ThatFitsNoDay_IsNo()
    {
        StartEvidence two = Fine with
        {
            Surface = Fine.Surface with { Layers = 2 },
            Times = Same(OneCoat with { RecoatFrom = TimeSpan.FromHours(11), RecoatBy = TimeSpan.FromHours(12) }),
        };
        Assert.Equal([(ClosingTime, Stops)], KindsOf(StartAnswer.To(two, Day)));
    }

    [Fact]
    public void Heat_IsAdvisedWithWhatTheBayHas_AndMarkedForTheCautions()
    {
        StartReason cold = Assert.Single(StartAnswer.To(StartSituations.Of("cold panel"), Day).Reasons);
        Assert.Equal(("Warm it with the fixed heating.", true), (cold.Help?.ToString(), cold.IsHelpHeat));
        StartReason bare = Assert.Single(StartAnswer.To(StartSituations.Of("cold panel") with { Means = ClimateMeans.None }, Day).Reasons);
        Assert.Null(bare.Help);
    }

    /// <summary>20 °C and 80 % hold as much water as 21.05 °C and 75 %: e_w(20) = 2339.3 Pa (IAPWS-95), so e = 1871.4 Pa and e/0.75 = 2495.2 Pa.</summary>
    [Fact]
    public void MoistAir_IsWarmedWithItsMoistureHeld() =>
        Assert.Equal(21.03, Air(20, 80).WarmedToC(75)!.Value, 0.05);
}
