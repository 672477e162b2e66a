using CureWatch.Curing;
using CureWatch.Planning;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>Several surfaces: where to begin, what the whole of it takes, and the sentence that says so.</summary>
public class StartDecisionTests
{
    [Fact]
    public void Start_IsYes_WithPassesFirstSurfaceAndTheEndOfTheDay()
    {
        StartDecision decision = Decide(Surface("bonnet", layers: 2, sections: 8), Surface("roof", layers: 2));
        Assert.Equal(StartVerdict.Yes, decision.Verdict);
        Assert.Equal(
            $"Start now: 4 sections a pass, bonnet first; layer 2 done {decision.Plan!.DoneAt:HH:mm}, lock-up 18:00.", decision.Text.ToString());
        Assert.Equal(4, decision.Plan.Layers.Length);
    }

    [Fact]
    public void First_IsWhatMayBeBegunNow_AndOfThatWhatIsSoonestTooLate()
    {
        StartEvidence cold = Surface("boot") with { Air = Air(9, 40), Panel = Panel(9) };
        StartEvidence dripping = Surface("doors") with { Wettings = [new Wetting(At(-30), At(-5))] };
        StartEvidence ready = Surface("roof"), closing = Surface("wings", layers: 2) with { Next = SecondLayer(-60, 120) };
        Assert.Equal("wings", Decide(cold, dripping, ready, closing).First!.Evidence.Surface.Id);
        Assert.Equal("roof", Decide(cold, dripping, ready).First!.Evidence.Surface.Id);
        Assert.Equal("doors", Decide(cold, dripping).First!.Evidence.Surface.Id);
        Assert.Equal("boot", Decide(cold).First!.Evidence.Surface.Id);
        Assert.Equal(["boot", "doors", "roof"], Decide(cold, dripping, ready).Answers.Select(a => a.Evidence.Surface.Id));
        Assert.Equal(["roof", "doors", "boot"], Decide(cold, dripping, ready).Plan!.Layers.Select(l => l.Surface));
    }

    [Fact]
    public void Wait_SaysUntilWhenAndWhy() => Assert.Equal(
        "Wait until 10:25: Bonnet was dried 09:55; edges and trim drip until 10:25.",
        Decide(Surface("bonnet") with { Wettings = [new Wetting(At(-30), At(-5))] }).Text.ToString());

    [Fact]
    public void No_SaysTheHardestReasonAndWhatHelps()
    {
        Assert.Equal("Not yet: Bonnet was not wiped down. Wipe it down and tell it.", Decide(Surface("bonnet") with { Preparation = Wiped(null) }).Text.ToString());
        Assert.EndsWith(
            "And wait until 10:25.",
            Decide(Surface("bonnet") with { Preparation = Wiped(null), Wettings = [new Wetting(At(-30), At(-5))] }).Text.ToString(),
            StringComparison.Ordinal);
    }

    [Fact]
    public void NothingLeft_IsNo()
    {
        StartDecision decision = Decide(Surface("bonnet") with { Next = null });
        Assert.Equal((StartVerdict.No, null, null), (decision.Verdict, decision.First, decision.Plan));
        Assert.Equal("Nothing is left to go on: every planned layer is on.", decision.Text.ToString());
    }

    [Fact]
    public void WholeCar_ThatDoesNotFitBeforeLockUp_IsSaid_ThoughEachSurfaceWould()
    {
        StartEvidence[] many = [.. Enumerable.Range(1, 30).Select(i => Surface($"panel-{i}", sections: 12))];
        StartDecision decision = Decide(many);
        Assert.Equal(StartVerdict.Yes, decision.Verdict);
        Assert.Equal([StartReasonKind.ClosingTime], decision.Reasons.Select(r => r.Kind));
        Assert.Empty(Decide([.. many.Take(3)]).Reasons);
    }

    /// <summary>A car that comes on another day is held against that day's lock-up, and waits for the first day that holds its work: tomorrow is a short one.</summary>
    [Theory]
    [InlineData(22 * 60, 22 * 60, null)]
    [InlineData((22 * 60) + 25, 46 * 60, StartReasonKind.ClosingTime)]
    [InlineData(23 * 60, 46 * 60, StartReasonKind.Closed)]
    public void CarThatComesAnotherDay_IsHeldAgainstThatDay(double comesMinute, double fromMinute, StartReasonKind? kind)
    {
        StartDay day = Day with
        {
            Hours = new ShopHours(At(0), At(7 * 24 * 60), TimeZoneInfo.Utc, [new(At(-120), At(480)), new(At(22 * 60), At((22 * 60) + 30)), new(At(46 * 60), At(56 * 60))]),
        };

        StartDecision decision = StartDecision.On([Surface("bonnet", sections: 8) with { ComesAt = At(comesMinute) }], day, StartPromise.None);

        Assert.Equal((StartVerdict.Wait, At(fromMinute)), (decision.Verdict, decision.From!.Latest!.Value));
        Assert.Equal(kind, decision.First!.Reasons.Select(r => (StartReasonKind?)r.Kind).SingleOrDefault(k => k is StartReasonKind.ClosingTime or StartReasonKind.Closed));
    }

    /// <summary>Begun at 10:00 and levelled at 10:04 it stays dry until 00:04, is finished at 09:15 and was promised for 9 or for 10 o'clock.</summary>
    [Theory]
    [InlineData(23 * 60, 1)]
    [InlineData(24 * 60, 0)]
    public void Promise_ThatCannotBeMet_IsSaid(double promisedMinute, int reasons)
    {
        var promise = new StartPromise(At(promisedMinute), DateTimeOffset.MinValue, at => at <= At(22 * 60) ? At((23 * 60) + 15) : null);
        StartDecision decision = StartDecision.On([Surface("bonnet")], Day, promise);
        Assert.Equal(Enumerable.Repeat(StartReasonKind.Promise, reasons), decision.Reasons.Select(r => r.Kind));
        Assert.True(reasons == 0 || decision.Reasons[0].Text.ToString().Contains("from Tue 09:15 at the latest; promised is Tue 09:00", StringComparison.Ordinal));
    }

    [Fact]
    public void Promise_WhileACoatThatIsOnCannotBeForetold_IsNotCalledFine()
    {
        StartDecision decision = StartDecision.On([Surface("bonnet")], Day, new StartPromise(At(5000), null, at => at));
        Assert.Contains("at no time anybody can tell", Assert.Single(decision.Reasons).Text.ToString(), StringComparison.Ordinal);
    }

    private static StartDecision Decide(params StartEvidence[] surfaces) => StartDecision.On(surfaces, Day, StartPromise.None);

    private static StartEvidence Surface(string id, int layers = 1, int sections = 1) => Fine with
    {
        Surface = Fine.Surface with { Id = id, Layers = layers, Sections = sections },
        Next = new NextLayer(1, [.. Enumerable.Range(1, sections)], [], []),
    };
}
