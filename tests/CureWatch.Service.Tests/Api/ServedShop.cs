using CureWatch.Service.Board;
using CureWatch.Service.Book;
using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Handbook;
using CureWatch.Service.Journal;
using CureWatch.Service.People;
using CureWatch.Service.Phone;
using CureWatch.Service.Photos;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;
using CureWatch.Service.Tests.Settings;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Api;

/// <summary>A shop served on a port of its own: the real pump and journal in a folder that is gone with it, on a clock that stands still.</summary>
internal sealed class ServedShop : IAsyncDisposable
{
    public static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private const string Shop =
        """
        {"shop":"test-shop","timeZone":"Europe/Dublin","finishing":"01:15:00","bays":[
          {"bay":"bay-1","airspace":"hall","equipment":["extraction"],"probes":[
            {"probe":"air","measures":"air"},{"probe":"bonnet","measures":"panel","on":{"material":"steel"}},
            {"probe":"cabin","measures":"air","on":{"place":"cabin"}}]},
          {"bay":"bay-2","probes":[{"probe":"air","measures":"air"}]}]}
        """;

    private const string Sheet =
        """
        {"product":"paint","revision":1,"kind":"paint","name":"Paint <b>coat</b>","cautions":["Mind the vapour."],"stages":[
          {"stage":"flash","rows":[{"temperatureC":20,"humidityPct":50,"from":"00:01:00","to":"00:03:00"}]},
          {"stage":"level-by","rows":[{"temperatureC":20,"humidityPct":50,"at":"00:08:00"}]},
          {"stage":"recoat-from","rows":[{"temperatureC":20,"humidityPct":50,"at":"01:00:00"}]},
          {"stage":"recoat-by","rows":[{"temperatureC":20,"humidityPct":50,"at":"06:00:00"}]},
          {"stage":"keep-dry","rows":[{"temperatureC":20,"humidityPct":50,"at":"12:00:00"}]}]}
        """;

    private const string QuickSheet =
        """
        {"product":"quick","revision":1,"kind":"glass","carrier":"water","stages":[
          {"stage":"flash","rows":[{"temperatureC":20,"humidityPct":50,"from":"00:02:00","to":"00:06:00"}]},
          {"stage":"level-by","rows":[{"temperatureC":20,"humidityPct":50,"at":"00:03:00"}]}]}
        """;

    private readonly Written _files;
    private readonly DataFolder _data;
    private readonly WebApplication _app;

    private ServedShop(Written files, DataFolder data, WebApplication app, FakeTimeProvider clock)
    {
        (_files, _data, _app, Clock) = (files, data, app, clock);
        Uri[] addresses = [.. app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Select(a => new Uri(a))];
        Address = addresses[0];
        SecureAddress = addresses.FirstOrDefault(a => a.Scheme == Uri.UriSchemeHttps);
        Client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = Address };
    }

    public FakeTimeProvider Clock { get; }

    public Uri Address { get; }

    /// <summary>By HTTPS; null where people do not sign in.</summary>
    public Uri? SecureAddress { get; }

    public string DataPath => _data.Path;

    public HttpClient Client { get; }

    public IServiceProvider Services => _app.Services;

    /// <summary>The data folder, which a command may read meanwhile.</summary>
    public string Data => _data.Path;

    public Troubles Troubles => Services.GetRequiredService<Troubles>();

    public static Task<ServedShop> OpenAsync(params string[] hosts) => OpenAsync(hosts, null);

    /// <summary>A shop whose journal can be taken away.</summary>
    public static Task<ServedShop> OpenFragileAsync() => OpenAsync([], null, segmentBytes: 1);

    /// <summary>A shop whose book has missed something, and gets it from a journal that a test has.</summary>
    public static Task<ServedShop> OpenBehindAsync(Func<IJournalSteps, IJournalSteps> journal) => OpenAsync([], journal);

    /// <summary>A shop that is to be backed up at night.</summary>
    public static Task<ServedShop> OpenBackedUpAsync() => OpenAsync([], null, backup: new BackupSettings("nights", new TimeOnly(3, 30), 7, 4, 12));

    /// <summary>A shop that opens every morning when the clock of a test starts, and closes three hours later.</summary>
    public static Task<ServedShop> OpenThreeHoursADayAsync() => OpenAsync([], null, shop: Shop.Replace("\"finishing\"", "\"openHours\":{\"monday\":[{\"from\":\"09:00\",\"to\":\"12:00\"}],\"tuesday\":[{\"from\":\"09:00\",\"to\":\"12:00\"}]},\"finishing\"", StringComparison.Ordinal));

    /// <summary>A shop that people open through a proxy that ends HTTPS.</summary>
    public static Task<ServedShop> OpenBehindProxyAsync(Uri address, bool isSignedIn = false) => OpenAsync([address.Authority], null, isSignedIn: isSignedIn, address: address);

    /// <summary>A shop where people sign in, by HTTPS too.</summary>
    public static Task<ServedShop> OpenWithPeopleAsync() => OpenAsync([], null, isSignedIn: true);

    private static async Task<ServedShop> OpenAsync(
        string[] hosts,
        Func<IJournalSteps, IJournalSteps>? behind,
        long segmentBytes = JournalWriter.UsualSegmentBytes,
        BackupSettings? backup = null,
        bool isSignedIn = false,
        string shop = Shop,
        Uri? address = null)
    {
        var files = new Written();
        files.File("config/shop.json", shop);
        files.File("config/products/paint.json", Sheet);
        files.File("config/products/quick.json", QuickSheet);
        var clock = new FakeTimeProvider(Start);
        var faults = new Faults();
        DataFolder data = DataFolder.Hold(LocalDisk.Instance, Path.Combine(files.Folder, "data"), isDemo: false, faults)!;
        Recovered recovered = Recovered.From(data, Path.Combine(files.Folder, "config"), isForced: false, faults)!;
        Assert.Empty(faults.All);

        IJournalSteps journal = new JournalSteps(data);
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        var board = new BoardSettings(0, Listen.Loopback, [.. hosts]) { IsSignedIn = isSignedIn, Https = isSignedIn ? new HttpsSettings(0, null) : null, Address = address };
        Assert.True(BoardFront.TryAdd(builder, board, data, clock, faults));
        builder.Services.AddSingleton<TimeProvider>(clock).AddRoutingCore().AddLogging()
            .AddSingleton(new ServiceSettings(null!, data.Path, board, new LimitSettings(4096, 10, 10))
            {
                Storage = new StorageSettings(backup, null),
            })
            .AddPump(data, recovered.Register, recovered.End, recovered.First, segmentBytes)
            .AddSingleton(behind is null ? journal : behind(journal))
            .AddBook(LocalDisk.Instance, data.Book, BookOpening.Of(LocalDisk.Instance, data.Book, 0), journalLast: behind is null ? 0 : 1)
            .AddPhotos(LocalDisk.Instance, data.Path)
            .AddPeople(LocalDisk.Instance, data.Path, isSignedIn)
            .AddBoard();
        WebApplication app = builder.Build();
        app.MapBoard().MapPhone().MapHandbook();
        await app.StartAsync();
        return new ServedShop(files, data, app, clock);
    }

    public async Task<Answer> AskAsync(Arrival arrival) => await Services.GetRequiredService<Inbox>().AskAsync(arrival);

    public Task ReadAsync(string probe, double airC, double humidityPct, string bay = "bay-1") =>
        AskAsync(new Arrival.Reading(new Entry.Reading(bay, probe, null, airC, humidityPct, null)));

    public Task ReadPanelAsync(double panelC) => AskAsync(new Arrival.Reading(new Entry.Reading("bay-1", "bonnet", null, null, null, panelC)));

    /// <summary>Lets time pass with a reading of every probe each minute.</summary>
    public async Task PassAsync(int minutes, double airC = 20, double humidityPct = 50, double panelC = 19)
    {
        for (int minute = 0; minute < minutes; minute++)
        {
            Clock.Advance(TimeSpan.FromMinutes(1));
            await ReadAsync("air", airC, humidityPct);
            await ReadAsync("cabin", airC, humidityPct);
            await ReadAsync("air", airC, humidityPct, "bay-2");
            await ReadPanelAsync(panelC);
        }
    }

    /// <summary>Takes the journal away, and lets a reading come that cannot be stored.</summary>
    public async Task BreakJournalAsync()
    {
        Directory.Delete(_data.Journal, recursive: true);
        Assert.IsType<Answer.NotStored>(await AskAsync(new Arrival.Reading(new Entry.Reading("bay-1", "air", null, 20, 50, null))));
    }

    public Task StopAsync() => _app.StopAsync();

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        _data.Dispose();
        _files.Dispose();
    }
}
