using System.Diagnostics;
using CureWatch.Service.Commands;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Commands;

public sealed class DataOptionTests : IDisposable
{
    private readonly Written _written = new();

    public DataOptionTests() => _written.File("shop.json", ShopVariants.Least);

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Import_WithoutAFolderNamed_GoesIntoTheOneTheServiceTakes()
    {
        string folder = Path.Combine(_written.Folder, "srv");
        _written.File("products/x-r1.json", SheetVariants.Least);
        ServiceFolder(folder);

        Invocation run = Invocation.Of("config", "import", "--config", _written.Folder);

        Assert.Equal((0, $"2 settings imported into {folder}"), (run.ExitCode, run.Output.Trim()));
        Assert.True(Directory.Exists(Path.Combine(folder, "journal")));
    }

    [Fact]
    public void FolderNamed_GoesBeforeTheSettings_EvenWhereTheyHoldAFault()
    {
        _written.File("curewatch.json", "{");
        Assert.Equal("here", Of("here"));
    }

    [Fact]
    public void NoServiceFile_MeansTheUsualFolder()
    {
        Assert.Equal("data", Of(null));
        Assert.Equal("data", DataOption.Of(null, "nowhere", new Faults()));
    }

    [Fact]
    public void SettingsWithAFault_AreRefused_AndSayHowToGoOn()
    {
        string file = _written.File("curewatch.json", """{"data":{"foldr":"/srv/cw"}}""");
        Invocation.Of("config", "import", "--config", _written.Folder).AssertRefused($"{file}: /data/foldr", $"{_written.Folder}: --data");
    }

    // An unmounted or forbidden folder may name another data folder than the usual one, which would then be restored to.
    [Fact]
    public void FolderThatCannotBeRead_IsNoneThatIsMissing()
    {
        foreach (string folder in new[] { _written.File("config", "a file where the folder should be"), Loop() })
        {
            var faults = new Faults();
            Assert.Null(DataOption.Of(null, folder, faults));
            Assert.Equal([(folder, "directory"), (folder, "--data")], faults.All.Select(f => (f.File, f.Place)));
        }

        string Loop() => File.CreateSymbolicLink(Path.Combine(_written.Folder, "loop"), "loop").FullName;
    }

    [Theory]
    [InlineData("plan")]
    [InlineData("start")]
    [InlineData("promise")]
    [InlineData("verify")]
    [InlineData("backup", "x.zip")]
    public void CommandByHand_LooksWhereTheServicesOwnSettingsSay(params string[] args)
    {
        _written.File("config/curewatch.json", """{"data":{"folder":"of the file"}}""");
        Assert.StartsWith("of the file: data folder: saw no journal", Run(null, args), StringComparison.Ordinal);
        if (args[0] == "plan")
        {
            Assert.StartsWith("of the environment: data folder: saw no journal", Run("of the environment", args), StringComparison.Ordinal);
        }
    }

    private string? Of(string? named)
    {
        var faults = new Faults();
        string? folder = DataOption.Of(named, _written.Folder, faults);
        Assert.Empty(faults.All);
        return folder;
    }

    private void ServiceFolder(string folder) =>
        _written.File("curewatch.json", $$$"""{"data":{"folder":{{{System.Text.Json.JsonSerializer.Serialize(folder)}}}}}""");

    /// <returns>What a command says on stderr, as a process of its own, with <c>config</c> in its working directory.</returns>
    private string Run(string? folder, string[] args)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "curewatch.dll"), .. args])
        {
            RedirectStandardError = true,
            WorkingDirectory = _written.Folder,
            Environment = { ["CUREWATCH__DATA__FOLDER"] = folder },
        };
        using Process process = Process.Start(start)!;
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.Equal(2, process.ExitCode);
        return error;
    }
}
