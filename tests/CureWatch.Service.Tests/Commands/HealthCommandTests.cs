using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Commands;

public sealed class HealthCommandTests : IDisposable
{
    private readonly Written _written = new();

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Port_IsTheBoards_WhateverElseTheFileHoldsAFaultIn()
    {
        _written.File("curewatch.json", """{"board":{"port":1,"listne":"all"},"mqtt":7,"storage":{"backup":{}}}""");

        Invocation run = Invocation.Of("health", "--config", _written.Folder);

        Assert.Equal(1, run.ExitCode);
        Assert.StartsWith("no answer on port 1: ", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{"board":{"port":8081}}""", 8081)]
    [InlineData("""{"board":{"port":"8081"}}""", null)]
    [InlineData("""{"board":[]}""", null)]
    [InlineData("{}", null)]
    [InlineData("[]", null)]
    [InlineData("null", null)]
    [InlineData("{", null)]
    public void Port_ThatCannotBeRead_IsTheUsualOne(string text, int? port) =>
        Assert.Equal(port, ServiceFile.BoardPort(_written.File("curewatch.json", text), [new("CUREWATCH__MAIL", "x")]));

    [Theory]
    [InlineData("{")]
    [InlineData("""{"board":{"port":8081},"x":1}""")]
    public void Port_InAVariable_GoesBeforeTheFile(string text) => Assert.Equal(
        8082, ServiceFile.BoardPort(_written.File("curewatch.json", text), [new("CureWatch__Board__Port", "8082"), new("CUREWATCH__BOARD__PROT", "x")]));
}
