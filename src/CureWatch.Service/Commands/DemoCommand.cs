using System.CommandLine;
using CureWatch.Bays;
using CureWatch.Service.Board;
using CureWatch.Service.Demo;
using CureWatch.Service.Documents;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using Microsoft.AspNetCore.Hosting.Server;

namespace CureWatch.Service.Commands;

/// <summary><c>demo</c>: the service with an invented shop, whose probes and people publish over real MQTT.</summary>
internal sealed class DemoCommand
{
    /// <summary>A day in two and a half minutes. Source (choice).</summary>
    private const double UsualMinutesPerSecond = 10;

    private readonly Option<double?> _pace = InvariantNumber.Optional(
        "--minutes-per-second", "most virtual minutes in a second", 0.01, 100_000);

    private readonly Option<string?> _data = new("--data")
    {
        Description = "folder to keep the demo's data in and to resume from; thrown away where left out",
        HelpName = "path",
    };

    private readonly Option<bool> _untilHandover = new("--until-handover")
    {
        Description = "end once the demo car is ready, and tell the day",
    };

    private readonly Option<int?> _port = PortOptions.Board();
    private readonly Option<int?> _mqttPort = PortOptions.Mqtt();
    private readonly Option<bool> _json = JsonOption.Create();

    public static Command Create()
    {
        var demo = new DemoCommand();
        var command = new Command(
            "demo", "Shows a day at an invented shop, with invented data. With --until-handover exits 1 where it ends in a hold.")
        {
            demo._pace, demo._port, demo._mqttPort, demo._untilHandover, demo._data, demo._json,
        };
        command.SetAction(demo.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        if (parsed.GetValue(_data) is { } kept)
        {
            return Run(parsed, kept);
        }

        DirectoryInfo thrownAway = Directory.CreateTempSubdirectory("curewatch-demo-");
        try
        {
            return Run(parsed, thrownAway.FullName);
        }
        finally
        {
            thrownAway.Delete(recursive: true);
        }
    }

    private int Run(ParseResult parsed, string data)
    {
        var faults = new Faults();
        if (ServiceFile.Read(null, [], faults) is not { } usual || DataFolder.Hold(LocalDisk.Instance, data, isDemo: true, faults) is not { } folder)
        {
            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }

        using (folder)
        {
            ServiceSettings settings = usual with
            {
                Board = usual.Board with { Port = parsed.GetValue(_port) ?? usual.Board.Port },
                Mqtt = usual.Mqtt with { Port = parsed.GetValue(_mqttPort) ?? 0 }, // whoever has a broker already keeps its port
            };
            return Recovered.From(folder, DemoDay.ShippedFolder, isForced: false, faults) is { } recovered
                && Play(parsed, settings, folder, recovered, faults) is { } exitCode
                ? exitCode
                : Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }
    }

    /// <returns>The exit code; null where the service cannot be built.</returns>
    private int? Play(ParseResult parsed, ServiceSettings settings, DataFolder folder, Recovered recovered, Faults faults)
    {
        TextWriter output = parsed.InvocationConfiguration.Output;
        bool asJson = parsed.GetValue(_json), untilHandover = parsed.GetValue(_untilHandover);
        DateTimeOffset start = recovered.End.Last > 0 ? recovered.End.LastAt : DemoDay.Start;
        var clock = new SteppedClock(start);
        var demo = new DemoSettings(parsed.GetValue(_pace) ?? UsualMinutesPerSecond, untilHandover);
        var host = ServiceHost.Build(
            settings,
            folder,
            recovered,
            clock,
            faults,
            services => services.AddDemo(
                clock, demo, p => new DemoAddresses(new Uri(BoardAddresses.Plain(p.GetRequiredService<IServer>())), p.GetRequiredService<EmbeddedBroker>().Port)));
        if (host is null)
        {
            return null;
        }

        int exitCode = host.Run(untilHandover ? null : new ReadyLine(asJson, output), parsed.InvocationConfiguration.Error);
        return host.Services.GetRequiredService<DemoDriver>().IsBroken ? ExitCode.AnswerIsNo
            : exitCode == ExitCode.Done && untilHandover ? Tell(host.Services.GetRequiredService<Latest>().Register, folder, asJson, output)
            : exitCode;
    }

    /// <returns>The exit code: no where the demo car is not ready, as when somebody ended the demo before.</returns>
    private static int Tell(Register register, DataFolder folder, bool asJson, TextWriter output)
    {
        Shop shop = register.Shop!;
        JobReport? report = shop.Find(DemoDay.MainJob) is null ? null : JobReport.Of(shop, DemoDay.MainJob);
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => ReplayJson.Write(json, report, shop.Tally));
        }
        else
        {
            TellTheDay(folder, output);
        }

        return report is { Ruling.IsReady: true } ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static void TellTheDay(DataFolder folder, TextWriter output)
    {
        Recovery journal = JournalFold.Open(folder.Disk, folder.Path);
        foreach (string line in Timeline.Of(journal.Steps()))
        {
            output.WriteLine(line);
        }

        output.WriteLine(Cautions.HeatAndShutDoors);
    }
}
