using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Service.Demo;
using CureWatch.Service.Documents;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Demo;

/// <summary>The program itself, played to its end in processes that are killed on the way.</summary>
public sealed class DemoRunTests : IDisposable
{
    private readonly string _data = Directory.CreateTempSubdirectory("curewatch-demo-test-").FullName;

    private string Journal => Path.Combine(_data, "journal");

    public void Dispose() => Directory.Delete(_data, recursive: true);

    [Fact]
    public async Task Demo_KilledAndStartedAgain_EndsAsTheDayFoldedStraight()
    {
        await PlayUntilKilledAsync(bytes: 220 * 1024);
        using Process last = Start();
        string document = await last.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await last.WaitForExitAsync(TestContext.Current.CancellationToken);
        Invocation replay = Invocation.Of("replay", "--data", _data, "--json");

        Assert.Equal(0, last.ExitCode);
        Assert.Equal(Folded(), document);
        Assert.Equal(document, replay.Output);
        Assert.Equal(0, Invocation.Of("verify", "--data", _data).ExitCode);
    }

    private async Task PlayUntilKilledAsync(long bytes)
    {
        using Process demo = Start();
        while (!demo.HasExited && Written() < bytes)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(20), TimeProvider.System, TestContext.Current.CancellationToken);
        }

        demo.Kill();
        await demo.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    private long Written() => Directory.Exists(Journal) ? new DirectoryInfo(Journal).EnumerateFiles().Sum(f => f.Length) : 0;

    private Process Start()
    {
        string program = Path.Combine(AppContext.BaseDirectory, "curewatch.dll");
        string[] options = ["--until-handover", "--minutes-per-second", "600", "--port", "0", "--mqtt-port", "0", "--json"];
        var start = new ProcessStartInfo("dotnet", [program, "demo", "--data", _data, .. options]) { RedirectStandardOutput = true };
        return Process.Start(start)!;
    }

    private static string Folded()
    {
        Shop shop = FoldedDay.Until(FoldedDay.Clock(24 + 8, 23)).Shop;
        using var output = new StringWriter();
        JsonOutput.WriteDocument(
            output, json => ReplayJson.Write(json, JobReport.Of(shop, DemoDay.MainJob), shop.Tally));
        return output.ToString();
    }
}
