namespace CureWatch.Service.Tests.Commands;

public class PassCommandTests
{
    private const string Pace = "pass --apply 00:01:30 --level 00:01:00";

    // By hand: last start 5:00 - 1:00 = 4:00; N = 1 + floor(4:00 / 1:30) = 3; the third ends at 4:30, the first has then waited 3:00.
    [Fact]
    public void Json_IsOneDocumentWithExactlyTheKeysPeopleScriptAgainst()
    {
        Invocation run = Invocation.Of($"{Pace} --flash-from 00:01:00 --flash-to 00:05:00 --finish-inside --json");
        Assert.Equal(new Invocation(0, """{"sections":3,"worstWait":"00:03:00","idle":"00:00:00","perPass":"00:07:30"}""" + "\n", ""), run);
    }

    [Fact]
    public void Json_WithoutASection_HasNullsAndExitsOne()
    {
        Invocation run = Invocation.Of($"{Pace} --flash-from 00:03:00 --flash-to 00:02:00 --json");
        Assert.Equal(new Invocation(1, """{"sections":0,"worstWait":null,"idle":null,"perPass":null}""" + "\n", ""), run);
    }

    // Levelling takes no longer than applying: the second keeps up, and every section waits its minute.
    [Theory]
    [InlineData("00:01:00", """{"sections":null,"worstWait":"00:01:00","idle":null,"perPass":null}""", 0)]
    [InlineData("00:02:00", """{"sections":5,"worstWait":"00:03:00","idle":"00:00:00","perPass":"00:12:30"}""", 0)]
    [InlineData("00:04:01", """{"sections":0,"worstWait":null,"idle":null,"perPass":null}""", 1)]
    public void TwoPeople_WorkOneBehindTheOther(string level, string json, int exitCode) => Assert.Equal(
        new Invocation(exitCode, json + "\n", ""),
        Invocation.Of($"pass --apply 00:01:30 --level {level} --flash-from 00:01:00 --flash-to 00:05:00 --change-over 00:30:00 --people 2 --finish-inside --json"));

    [Theory]
    [InlineData("3")]
    [InlineData("0")]
    [InlineData("two")]
    public void People_AreOneOrTwo(string people)
    {
        Invocation run = Invocation.Of($"{Pace} --flash-from 00:01:00 --flash-to 00:05:00 --people {people}");
        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Contains($"--people: saw '{people}'", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void FinishInside_TakesTheLevellingOffTheWindow()
    {
        Invocation outside = Invocation.Of($"{Pace} --flash-from 00:01:00 --flash-to 00:03:30 --json");
        Invocation inside = Invocation.Of($"{Pace} --flash-from 00:01:00 --flash-to 00:03:30 --finish-inside --json");
        Assert.StartsWith("""{"sections":3,""", outside.Output, StringComparison.Ordinal);
        Assert.StartsWith("""{"sections":2,""", inside.Output, StringComparison.Ordinal);
    }

    // By hand: applied at 0.25 s and 0.5 s; 23:59:59.75 after the second wipe the first has flashed; the second has then waited
    // a day and 0.25 s, the last moment allowed.
    [Fact]
    public void Fractions_AndDays_AreKeptToTheLastDigit() => Assert.Equal(
        """{"sections":2,"worstWait":"1.00:00:00.2500000","idle":"23:59:59.7500000","perPass":"1.00:00:01.2500000"}""" + "\n",
        Invocation.Of("pass --apply 00:00:00.25 --level 00:00:00.5 --flash-from 1.00:00:00 --flash-to 1.00:00:00.2500000 --json").Output);

    [Theory]
    [InlineData("--flash-from 00:01:00 --flash-to 00:05:00", "4 sections a pass: coat 4, then level them in the same order", 0)]
    [InlineData("--flash-from 00:01:00 --flash-to 00:01:50 --finish-inside", "ends 0:10 too late. Make the sections smaller.", 1)]
    [InlineData("--flash-from 00:03:00 --flash-to 00:02:00", "Smaller sections, judge by eye.", 1)]
    [InlineData("--flash-from 00:00:00 --flash-to 00:00:10 --change-over 00:00:15.5", "tools are changed 0:05.5 too late", 1)]
    public void Words_SayWhatToDo_WithTheCaution(string window, string words, int exitCode)
    {
        Invocation run = Invocation.Of($"{Pace} {window}");
        Assert.Equal(exitCode, run.ExitCode);
        Assert.Contains(words, run.Output, StringComparison.Ordinal);
        Assert.Contains("solvent vapour", run.Output, StringComparison.Ordinal);
        Assert.Contains("safety data sheet", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("90")]
    [InlineData("1:30")]
    [InlineData("00:90:00")]
    [InlineData("24:00:00")]
    [InlineData("-00:01:00")]
    [InlineData("00:01:00,5")]
    [InlineData("00:00:00.12345678")]
    [InlineData("00:00:00")]
    [InlineData("366.00:00:00")]
    [InlineData("99999999.00:00:00")]
    [InlineData("٠٠:٠١:٠٠")]
    [InlineData("soon")]
    [InlineData("")]
    public void Duration_InAnotherFormOrRange_IsRefusedWithTheValueSeen(string text)
    {
        Invocation run = Invocation.Of(
            "pass", "--apply", text, "--level", "00:01:00", "--flash-from", "00:01:00", "--flash-to", "00:05:00");
        run.AssertRefused("--apply");
        Assert.Contains($"saw '{text}'; allowed: time to apply one section, above zero", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void SeveralFaults_AreAllTold() => Invocation.Of("pass --level 00:00:00 --flash-to 5 --change-over -00:00:01")
        .AssertRefused("--apply", "--level", "--flash-from", "--flash-to", "--change-over");
}
