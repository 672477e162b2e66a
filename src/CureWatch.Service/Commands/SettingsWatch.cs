using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Commands;

/// <summary>Tells while the service runs that its next start would refuse the files of its configuration: after a power cut at night nobody would be there to read why.</summary>
internal sealed class SettingsWatch(string config, Latest latest, Troubles troubles, TimeProvider clock) : BackgroundService
{
    /// <summary>Source (choice): soon enough for whoever has just saved a file, and too seldom to cost anything.</summary>
    private static readonly TimeSpan LookEvery = TimeSpan.FromMinutes(5);

    /// <summary>Reads the files as a start does, and takes nothing of them.</summary>
    public void Look()
    {
        var faults = new Faults();
        try
        {
            Try(faults);
        }
#pragma warning disable CA1031 // somebody is at the files just now: whatever they hold half-written, it must not end the service
        catch (Exception e)
#pragma warning restore CA1031
        {
            faults.Add(Unreadable.At(config, e));
        }

        if (faults.Count == 0)
        {
            troubles.Clear(WarningKind.SettingsTrouble);
        }
        else
        {
            troubles.Raise(WarningKind.SettingsTrouble, faults.Count == 1 ? $"{faults.All[0]}" : $"{faults.All[0]}; {faults.Count - 1} more");
        }
    }

    private void Try(Faults faults)
    {
        if (ConfigurationFolder.Find(config, faults) is not { } files)
        {
            return;
        }

        CheckCommand.Check(files, faults);
        if (faults.Count == 0 && Configuration.Read(files, faults) is { } configuration)
        {
            _ = Imports.Decide(latest.Register, files, configuration, isForced: false, faults);
        }
    }

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(LookEvery, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            Look();
        }
    }
}
