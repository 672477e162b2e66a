using System.Collections.Immutable;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Commands;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Pump, journal and MQTT put together as the service does, with a clock that a test turns.</summary>
internal sealed class ShopRig : IAsyncDisposable
{
    public const string Root = "curewatch/v1/test-shop";
    public const string AirTopic = $"{Root}/bay-1/probe/air-1";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-");
    private readonly ExternalBroker? _external;
    private readonly string _shop;
    private readonly long _segmentBytes;
    private DataFolder? _data;
    private ServiceProvider? _services;

    private ShopRig(ExternalBroker? external, string shop, long segmentBytes) => (_external, _shop, _segmentBytes) = (external, shop, segmentBytes);

    public FakeTimeProvider Clock { get; } = new(Journal.Entries.At);

    public Register Register => Of<Latest>().Register;

    public int Port => int.Parse(Of<MqttService>().Address.Split(':')[^1]);

    public static async Task<ShopRig> StartAsync(
        ExternalBroker? external = null, string shop = RecordedDay.Shop, long segmentBytes = JournalWriter.UsualSegmentBytes)
    {
        var rig = new ShopRig(external, shop, segmentBytes);
        await rig.StartAsync();
        return rig;
    }

    public T Of<T>()
        where T : notnull => _services!.GetRequiredService<T>();

    public async Task StartAsync()
    {
        _data = DataFolder.Hold(LocalDisk.Instance, _folder.FullName, isDemo: false, new Faults())!;
        var recovery = new Recovery(LocalDisk.Instance, _data.Journal, new EntryCodec(new KeyStore(LocalDisk.Instance, _data.Keys)));
        recovery.Run();
        ImmutableArray<Entry> first = recovery.Register.Shop is null
            ?
            [
                new Entry.SettingsChanged(new SettingsItem(SettingsItem.Shop, "test-shop", 0), "shop-hash", _shop, SettingsOrigin.File),
                new Entry.SettingsChanged(new SettingsItem(SettingsItem.Product, "paint", 1), "paint-hash", RecordedDay.Sheet, SettingsOrigin.File),
            ]
            : [new Entry.EngineStarted("test")];
        _services = new ServiceCollection()
            .AddLogging(l => l.SetMinimumLevel(LogLevel.None))
            .AddSingleton<TimeProvider>(Clock)
            .AddPump(_data, recovery.Register, recovery.End, first, _segmentBytes)
            .AddMqtt(new MqttSettings(0, Listen.Loopback, [], _external), BrokerRig.Limits)
            .BuildServiceProvider();
        foreach (IHostedService service in _services.GetServices<IHostedService>())
        {
            await service.StartAsync(TestContext.Current.CancellationToken);
        }
    }

    public async Task StopAsync()
    {
        ServiceProvider services = _services!;
        _services = null;
        foreach (IHostedService service in services.GetServices<IHostedService>().Reverse())
        {
            await service.StopAsync(TestContext.Current.CancellationToken);
        }

        await services.DisposeAsync();
        _data!.Dispose();
    }

    /// <summary>Takes the journal away; what is written to the next segment fails.</summary>
    public void BreakJournal() => Directory.Delete(_data!.Journal, recursive: true);

    public Task<Answer> AskAsync(Arrival arrival) => Of<Inbox>().AskAsync(arrival, TestContext.Current.CancellationToken);

    public Task<Answer> ReadAsync(double airC, double humidityPct) =>
        AskAsync(new Arrival.Reading(new Entry.Reading("bay-1", "air-1", Clock.GetUtcNow(), airC, humidityPct, null)));

    public Task<Answer> StartJobAsync(string job = "job-1") => AskAsync(new Arrival.JobStart("job", System.Text.Encoding.UTF8.GetBytes(
        $$"""{"job":"{{job}}","bay":"bay-1","car":"grey","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}]}""")));

    public Task<Answer> TapAsync(string did, string job = "job-1") => AskAsync(new Arrival.Tap("tap", job, System.Text.Encoding.UTF8.GetBytes(
        $$"""{"at":"{{Clock.GetUtcNow():yyyy-MM-ddTHH:mm:ssZ}}","did":"{{did}}"}""")));

    /// <summary>Turns the clock, with a reading each minute.</summary>
    public async Task PassAsync(int minutes, double airC = 20, double humidityPct = 50)
    {
        for (int i = 0; i < minutes; i++)
        {
            Clock.Advance(TimeSpan.FromMinutes(1));
            await ReadAsync(airC, humidityPct);
        }
    }

    /// <summary>Waits until all that is on disk is published.</summary>
    public Task FlushAsync()
    {
        long sequence = Register.Sequence;
        return Eventually.TrueAsync(() => Of<Outputs>().PublishedThrough >= sequence, $"entry {sequence} to be published");
    }

    public async ValueTask DisposeAsync()
    {
        if (_services is not null)
        {
            await StopAsync();
        }

        _folder.Delete(recursive: true);
    }
}
