using System.Diagnostics;
using System.Text.Json;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Commands;

public sealed class CheckCommandTests : IDisposable
{
    private readonly Written _written = new();

    public CheckCommandTests()
    {
        _written.File("shop.json", ShopVariants.Least);
        _written.File("products/x-r1.json", SheetVariants.Least);
    }

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Configuration_WithoutAFault_IsToldInOneLine()
    {
        Invocation run = Check();

        Assert.Equal(0, run.ExitCode);
        Assert.Equal($"{_written.Folder}: 2 files, no fault", run.Output.Trim());
        Assert.Empty(run.Error);
    }

    [Fact]
    public void Json_WithoutAFault_NamesTheFiles()
    {
        Invocation run = Check("--json");

        Assert.Equal(0, run.ExitCode);
        JsonElement json = JsonDocument.Parse(run.Output).RootElement;
        Assert.Equal(["config", "files", "faults"], json.EnumerateObject().Select(p => p.Name));
        Assert.Equal(_written.Folder, json.GetProperty("config").GetString());
        Assert.Equal(
            [Path.Combine(_written.Folder, "shop.json"), Path.Combine(_written.Folder, "products", "x-r1.json")],
            json.GetProperty("files").EnumerateArray().Select(f => f.GetString()));
        Assert.Empty(json.GetProperty("faults").EnumerateArray());
    }

    [Fact]
    public void Faults_OfEveryFile_AreToldOnePerLineOnStdout()
    {
        string shop = _written.File("shop.json", Edited.At(ShopVariants.Least, "/town", "\"by\\nthe sea\""));
        string sheet = _written.File("products/x-r1.json", Edited.At(SheetVariants.Least, "/kind", "\"boat\""));

        Invocation run = Check();

        Assert.Equal(1, run.ExitCode);
        Assert.Empty(run.Error);
        Assert.Equal(
            [
                $"{shop}: /town: saw the key town; allowed: the keys shop, timeZone, bays, openHours, finishing, work",
                $"{sheet}: /kind: saw \"boat\"; allowed: paint | glass | wheel | film | trim | fabric | leather",
            ],
            run.Output.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries));
    }

    [Fact]
    public void Json_WithFaults_GivesFilePlaceSeenAndAllowed()
    {
        string shop = _written.File("shop.json", Edited.At(ShopVariants.Least, "/shop", "7"));

        Invocation run = Check("--json");

        Assert.Equal(1, run.ExitCode);
        Assert.Empty(run.Error);
        JsonElement fault = JsonDocument.Parse(run.Output).RootElement.GetProperty("faults").EnumerateArray().Single();
        Assert.Equal(["file", "place", "seen", "allowed"], fault.EnumerateObject().Select(p => p.Name));
        Assert.Equal([shop, "/shop", "7"], fault.EnumerateObject().Take(3).Select(p => p.Value.GetString()));
    }

    [Fact]
    public void ServiceFile_IsCheckedToo_AndHeldAgainstTheShop()
    {
        string service = _written.File(
            "curewatch.json", """{"mqtt":{"users":[{"user":"u","password":"w","role":"probe","bay":"b","probe":"x"}]}}""");

        Invocation run = Check();

        Assert.Equal(1, run.ExitCode);
        Assert.Equal($"{service}: /mqtt/users/0/probe: saw b/x; allowed: a probe of the shop: b/p", run.Output.Trim());
    }

    [Fact]
    public void Environment_IsCheckedToo()
    {
        string program = Path.Combine(AppContext.BaseDirectory, "curewatch.dll");
        var start = new ProcessStartInfo("dotnet", [program, "check", "--config", _written.Folder])
        {
            RedirectStandardOutput = true,
            Environment = { ["CUREWATCH__MQTT__PORT"] = "1884", ["CUREWATCH__MQTT__PROT"] = "1884" },
        };
        using Process check = Process.Start(start)!;

        string output = check.StandardOutput.ReadToEnd();

        check.WaitForExit();
        Assert.Equal(1, check.ExitCode);
        Assert.StartsWith(
            "environment: CUREWATCH__MQTT__PROT: saw the key PROT; allowed: CUREWATCH__MQTT__PORT, ", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData]
    [InlineData("--json")]
    public void Folder_ThatIsMissing_CannotBeUsed(params string[] options) =>
        Invocation.Of(["check", "--config", "nowhere", .. options]).AssertRefused("nowhere: directory");

    [Fact]
    public void NoFolderNamed_TakesTheShippedOne()
    {
        Invocation run = Invocation.Of("check");

        Assert.Equal(0, run.ExitCode);
        Assert.EndsWith("config: 9 files, no fault", run.Output.Trim(), StringComparison.Ordinal);
    }

    private Invocation Check(params string[] options) => Invocation.Of(["check", "--config", _written.Folder, .. options]);
}
