using CureWatch.Service.Demo;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Tests.Demo;

public class DemoScriptTests
{
    private static readonly HeardWarning Called = new("level-closing", DemoDay.MainJob, "windscreen", FoldedDay.Clock(7, 0));

    [Fact]
    public void Script_AgainstNothing_IsTheDay()
    {
        using DemoScript script = Script();

        Assert.Equal(Day().Take(500), Enumerable.Range(0, 500).Select(_ => script.Take(Register.Blank)));
    }

    [Fact]
    public void Script_AfterARestart_GoesOnWithTheFirstActThatIsNotJournalled()
    {
        FoldedDay played = FoldedDay.Until(FoldedDay.Clock(11, 0));
        using DemoScript script = Script();

        DemoAct[] rest = [.. Enumerable.Range(0, 500).Select(_ => script.Take(played.Register))];

        Assert.Equal(Day().SkipWhile(a => a.At <= FoldedDay.Clock(11, 0)).Take(500), rest);
    }

    [Fact]
    public void Answer_ComesInItsTime_Once()
    {
        using DemoScript script = Script();
        script.Hear(Called, Register.Blank);
        script.Hear(Called, Register.Blank);

        DemoAct[] acts = [.. Enumerable.Range(0, 50).Select(_ => script.Take(Register.Blank))];

        DemoAct.Tapped answer = Assert.Single(acts.OfType<DemoAct.Tapped>());
        Assert.Equal(Called.RaisedAt.AddSeconds(150), answer.At);
        Assert.Equal(acts.OrderBy(a => a.At), acts);
    }

    [Fact]
    public void Answer_ThatIsJournalled_IsNotGivenAgain()
    {
        FoldedDay played = FoldedDay.Whole;
        using DemoScript script = Script();
        script.Hear(Called, played.Register);

        Assert.IsType<DemoAct.Published>(script.Peek(played.Register));
    }

    [Fact]
    public void OtherWarnings_MoveNobody()
    {
        Assert.Null(Technician.AnswerTo(Called with { Surface = "bonnet" }));
        Assert.Null(Technician.AnswerTo(Called with { Kind = "humidity-high" }));
    }

    private static DemoScript Script() => new(new DemoDay(DemoDay.ShippedFolder));

    private static IEnumerable<DemoAct> Day() => new DemoDay(DemoDay.ShippedFolder).Acts();
}
