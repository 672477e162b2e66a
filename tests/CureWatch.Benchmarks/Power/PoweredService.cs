using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Benchmarks.Kills;
using CureWatch.Service.Alarms;
using CureWatch.Service.Book;
using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Quartz;

namespace CureWatch.Benchmarks.Power;

/// <summary>The whole service, with its brokers and its board, in this process and on any disk.</summary>
internal sealed class PoweredService : IDisposable
{
    public const string Data = "/data";

    private readonly DataFolder _folder;
    private readonly ServiceHost _host;
    private readonly StringWriter _error = new();
    private readonly Task<int> _running;
    private readonly Said _output = new();

    /// <exception cref="IOException">It cannot start.</exception>
    public PoweredService(IDisk disk, string config, ExternalBroker? broker)
    {
        var faults = new Faults();
        _folder = DataFolder.Hold(disk, Data, isDemo: false, faults) ?? throw Refused(faults);
        try
        {
            var settings = new ServiceSettings(
                new MqttSettings(0, Listen.Loopback, [], broker), Data, new BoardSettings(0, Listen.Loopback, []), new LimitSettings(4096, 100, 1000));
            Recovered recovered = Recovered.From(_folder, config, isForced: false, faults) ?? throw Refused(faults);
            _host = ServiceHost.Build(settings, _folder, recovered, TimeProvider.System, faults) ?? throw Refused(faults);
            _running = Task.Factory.StartNew(
                () => _host.Run(new ReadyLine(true, _output), _error), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        }
        catch
        {
            _folder.Dispose();
            throw;
        }
    }

    /// <returns>Where it is reached once it is ready.</returns>
    /// <exception cref="IOException">It ended before.</exception>
    public async Task<Addresses> ReadyAsync()
    {
        Task<string> line = _output.Line;
        return await Task.WhenAny(line, _running) == line
            ? Addresses.Of(JsonElement.Parse(await line))
            : throw new IOException(_error.ToString());
    }

    /// <summary>Whether any reading has ever come through.</summary>
    public bool HasHeard() => _host.Services.GetRequiredService<Latest>().Register.Shop?.Tally.Accepted > 0;

    /// <returns>Whether its alarm is set to the instant at which something falls due next in its state.</returns>
    public async Task<bool> IsArmedAsync()
    {
        IScheduler scheduler = await _host.Services.GetRequiredService<ISchedulerFactory>().GetScheduler();
        for (int i = 0; i < 500; i++)
        {
            DateTimeOffset? due = ShopFold.NextDueAt(_host.Services.GetRequiredService<Latest>().Register.Shop!);
            if ((await scheduler.GetTrigger(AlarmClock.Due))?.NextFireTimeUtc == (due is { } instant ? AlarmClock.WholeMillisecond(instant) : null))
            {
                return true;
            }

            await Task.Delay(TimeSpan.FromMilliseconds(10), TimeProvider.System);
        }

        return false;
    }

    /// <summary>Waits until the book has followed the journal.</summary>
    public async Task BookIsLevelAsync()
    {
        BookKeeper book = _host.Services.GetRequiredService<BookKeeper>();
        while (await book.AskAsync(b => b.Position) is not BookAnswer<BookPosition>.Told { IsBehind: false })
        {
            await Task.Delay(TimeSpan.FromMilliseconds(20), TimeProvider.System);
        }
    }

    /// <summary>Stops it as a service manager does.</summary>
    /// <returns>The exit code.</returns>
    public async Task<int> StopAsync()
    {
        if (!_running.IsCompleted)
        {
            _host.Services.GetRequiredService<IHostApplicationLifetime>().StopApplication();
        }

        return await _running;
    }

    public void Dispose()
    {
        _folder.Dispose();
        _error.Dispose();
        _output.Dispose();
    }

    private static IOException Refused(Faults faults) => new(string.Join('\n', faults.All));

    /// <summary>Waits for the line that says where it is reached.</summary>
    private sealed class Said : StringWriter
    {
        private readonly TaskCompletionSource<string> _line = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public Task<string> Line => _line.Task;

        public override void Flush() => _line.TrySetResult(ToString());
    }
}
