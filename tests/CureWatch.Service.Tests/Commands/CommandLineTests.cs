using CureWatch.Service.Commands;

namespace CureWatch.Service.Tests.Commands;

public class CommandLineTests
{
    [Fact]
    public void UnknownCommand_IsRefusedWithExitTwo() => Assert.Equal(2, CommandLine.Run(["polish"]));
}
