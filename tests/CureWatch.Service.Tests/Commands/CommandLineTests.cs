namespace CureWatch.Service.Tests.Commands;

public class CommandLineTests
{
    [Fact]
    public void UnknownCommand_IsOneFault() => Invocation.Of("polish --air 20").AssertRefused("curewatch");

    [Fact]
    public void NoCommand_IsTheService() => Invocation.Of("--port 70000 --mqtt-port x").AssertRefused("--port", "--mqtt-port");

    [Fact]
    public void UnknownOption_IsOneFaultWithItsValue()
    {
        Invocation run = Invocation.Of("climate --air 20 --humidity 50 --paint 3");
        run.AssertRefused("climate");
        Assert.Contains("saw '--paint 3'", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void SeveralFaults_AreAllTold() =>
        Invocation.Of("climate --humidty 50 extra --panel warm").AssertRefused("climate", "climate", "--air", "--humidity", "--panel");

    [Fact]
    public void OptionGivenTwice_IsOneFault() => Invocation.Of("climate --air 20 --air 21 --humidity 50").AssertRefused("--air");

    [Fact]
    public void LineBreakInAnArgument_StaysOnOneLine() =>
        Invocation.Of("climate", "--air", "2\n0", "--humidity", "50").AssertRefused("--air");

    [Fact]
    public void ArgumentBeginningWithAt_IsNoFileOfMoreArguments() =>
        Invocation.Of("climate @/etc/hostname --air 20 --humidity 50").AssertRefused("climate");

    [Theory]
    [InlineData("--help")]
    [InlineData("climate --help")]
    public void Help_IsAnAnswer(string commandLine)
    {
        Invocation run = Invocation.Of(commandLine);
        Assert.Equal(0, run.ExitCode);
        Assert.Contains("climate", run.Output, StringComparison.Ordinal);
        Assert.Empty(run.Error);
    }
}
