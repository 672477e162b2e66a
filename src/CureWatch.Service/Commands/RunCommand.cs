using System.CommandLine;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>run</c>: the service.</summary>
internal sealed class RunCommand
{
    public const string Name = "run";

    private readonly Option<string?> _config = ConfigOption.Create();

    private readonly Option<string?> _data = new("--data")
    {
        Description = "data folder; what curewatch.json says, else data here, where left out",
        HelpName = "path",
    };

    private readonly Option<int?> _port = PortOptions.Board();
    private readonly Option<int?> _mqttPort = PortOptions.Mqtt();
    private readonly Option<bool> _json = JsonOption.Create();

    public static Command Create()
    {
        var run = new RunCommand();
        var command = new Command(Name, "Watches the bays, until it is stopped.") { run._config, run._data, run._port, run._mqttPort, run._json };
        command.SetAction(run.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var faults = new Faults();
        string config = parsed.GetValue(_config) ?? ConfigurationFolder.Usual;
        if (Settings(parsed, config, faults) is not { } settings
            || DataFolder.Hold(LocalDisk.Instance, settings.DataFolder, isDemo: false, faults) is not { } folder)
        {
            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }

        using (folder)
        {
            return Recovered.From(folder, config, isForced: false, faults, new ReadingProgress(TimeProvider.System, parsed.InvocationConfiguration.Error).Look) is { } recovered
                && ServiceHost.Build(settings, folder, recovered, TimeProvider.System, faults, WatchOver(config)) is { } host
                ? host.Run(new ReadyLine(parsed.GetValue(_json), parsed.InvocationConfiguration.Output), parsed.InvocationConfiguration.Error)
                : Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }
    }

    private static Action<IServiceCollection> WatchOver(string config) => services => services.AddHostedService(
        p => new SettingsWatch(config, p.GetRequiredService<Latest>(), p.GetRequiredService<Troubles>(), p.GetRequiredService<TimeProvider>()));

    /// <returns>How to run, or null where any file of the configuration holds a fault.</returns>
    private ServiceSettings? Settings(ParseResult parsed, string config, Faults faults)
    {
        if (ConfigurationFolder.Find(config, faults) is not { } files)
        {
            return null;
        }

        ServiceSettings? settings = ServiceFile.Read(files.Service, ServiceVariable.OfProcess, faults);
        Configuration? configuration = Configuration.Read(files, faults);
        if (settings is null || configuration is null)
        {
            return null;
        }

        int before = faults.Count;
        ProbeUsers.Check(settings, configuration.Shop.Plan, faults);
        return faults.Count > before
            ? null
            : settings with
            {
                DataFolder = parsed.GetValue(_data) ?? settings.DataFolder,
                Board = settings.Board with { Port = parsed.GetValue(_port) ?? settings.Board.Port },
                Mqtt = settings.Mqtt with { Port = parsed.GetValue(_mqttPort) ?? settings.Mqtt.Port },
            };
    }
}
