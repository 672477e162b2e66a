using System.Net;
using CureWatch.Benchmarks.Harness;
using CureWatch.Service.Board;
using CureWatch.Service.Book;
using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Benchmarks.BookSize;

/// <summary>A book behind the service's own HTTP interface, with a shop that was just set up in front of it.</summary>
internal sealed class ServedBook : IAsyncDisposable
{
    private readonly LoadShop _shop;
    private readonly DataFolder _data;
    private readonly WebApplication _app;

    private ServedBook(LoadShop shop, DataFolder data, WebApplication app) => (_shop, _data, _app) = (shop, data, app);

    public Uri Address => new(_app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());

    /// <param name="book">The folder of the book.</param>
    public static async Task<ServedBook> OpenAsync(string book)
    {
        var shop = new LoadShop(bays: 10, probesPerBay: 2);
        var faults = new Faults();
        DataFolder data = DataFolder.Hold(LocalDisk.Instance, shop.Data, isDemo: false, faults)!;
        Recovered recovered = Recovered.From(data, shop.Config, isForced: false, faults)!;
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(o => o.Listen(IPAddress.Loopback, 0));
        builder.Services.AddSingleton(TimeProvider.System).AddRoutingCore().AddLogging()
            .AddSingleton(ServiceFile.Read(null, [], faults)!)
            .AddPump(data, recovered.Register, recovered.End, recovered.First)
            .AddSingleton<IJournalSteps>(new JournalSteps(data))
            .AddPeople(data.Disk, data.Path, isSignedIn: false)
            .AddBook(LocalDisk.Instance, book, BookOpening.Of(LocalDisk.Instance, book, long.MaxValue), journalLast: 0)
            .AddBoard();
        WebApplication app = builder.Build();
        app.MapBoard();
        await app.StartAsync();
        return new ServedBook(shop, data, app);
    }

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        _data.Dispose();
        _shop.Dispose();
    }
}
