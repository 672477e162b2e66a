using System.Net.Sockets;
using CureWatch.Service.Alarms;
using CureWatch.Service.Backups;
using CureWatch.Service.Board;
using CureWatch.Service.Book;
using CureWatch.Service.Certificates;
using CureWatch.Service.Handbook;
using CureWatch.Service.Journal;
using CureWatch.Service.Mqtt;
using CureWatch.Service.People;
using CureWatch.Service.Phone;
using CureWatch.Service.Photos;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;
using CureWatch.Service.Telemetry;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.Extensions.Logging.Console;

namespace CureWatch.Service.Commands;

/// <summary>The service put together: pump first, then whatever feeds it or follows it.</summary>
internal sealed class ServiceHost(WebApplication app)
{
    /// <summary>How long a request may go on once the service is told to stop: a phone that is half-way through one may have gone. Source (choice).</summary>
    private static readonly TimeSpan LongestFarewell = TimeSpan.FromSeconds(3);

    public IServiceProvider Services => app.Services;

    /// <param name="settings">How it runs.</param>
    /// <param name="folder">The data folder, held by the caller.</param>
    /// <param name="recovered">What it held.</param>
    /// <param name="clock">The only clock that decides anything.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <param name="more">What else to register, which starts last.</param>
    /// <returns>The service, or null where its book must not be used.</returns>
    public static ServiceHost? Build(
        ServiceSettings settings, DataFolder folder, Recovered recovered, TimeProvider clock, Faults faults, Action<IServiceCollection>? more = null)
    {
        var book = BookOpening.Of(folder.Disk, folder.Book, recovered.End.Last);
        if (book is BookOpening.Refused refused)
        {
            faults.Add(refused.Fault);
            return null;
        }

        // Nothing of this machine's other settings, such as ASPNETCORE_URLS or an appsettings.json somewhere, changes this service.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, ApplicationName = typeof(ServiceHost).Assembly.GetName().Name });
        builder.Logging.AddSimpleConsole(o => o.SingleLine = true).SetMinimumLevel(LogLevel.Information)
            .AddFilter("Microsoft", LogLevel.Warning).AddFilter("Quartz", LogLevel.Warning)
            .AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error) // its keys are files that only their owner reads, and it warns of that
            .AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.Critical); // why it cannot start is told in one line below
        builder.Services.Configure<ConsoleLoggerOptions>(o => o.LogToStandardErrorThreshold = LogLevel.Trace);
        builder.Services.AddSystemd().AddWindowsService().Configure<HostOptions>(o => o.ShutdownTimeout = LongestFarewell);
        if (!BoardFront.TryAdd(builder, settings.Board, folder, clock, faults))
        {
            return null;
        }

        builder.Services.AddSingleton(clock).AddSingleton(settings).AddRouting()
            .AddPump(folder, recovered.Register, recovered.End, recovered.First, readingsPerSecond: settings.Limits.ReadingsPerSecond, keys: recovered.Keys)
            .AddSnapshots(folder)
            .AddBook(folder.Disk, folder.Book, book, recovered.End.Last)
            .AddPhotos(folder.Disk, folder.Path)
            .AddAlarms(clock)
            .AddBackups(folder, ProgramVersion.Text, settings.Storage, clock)
            .AddMqtt(settings.Mqtt, settings.Limits)
            .AddPeople(folder.Disk, folder.Path, settings.Board.IsSignedIn)
            .AddBoard()
            .AddTelemetry(builder.Configuration, settings.Telemetry);
        builder.Services.AddHostedService<StartGivenBack>();
        more?.Invoke(builder.Services);
        WebApplication app = builder.Build();
        app.MapBoard().MapPhone().MapHandbook().MapTelemetry(settings.Telemetry);
        return new ServiceHost(app);
    }

    /// <summary>Runs until it is told to stop.</summary>
    /// <param name="ready">Says where it can be reached; null where nobody asks.</param>
    /// <param name="error">Where it is said why it cannot start.</param>
    /// <returns>The exit code.</returns>
    public int Run(ReadyLine? ready, TextWriter error)
    {
        bool isMade = false;
        try
        {
            _ = app.Services.GetServices<IHostedService>().Count(); // opens the files they need; a host that never had its services cannot be stopped
            isMade = true;
            app.Start();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or SocketException)
        {
            error.WriteLine(Why(e, app.Services.GetRequiredService<ServiceSettings>()).ReplaceLineEndings(" "));
            if (isMade)
            {
                app.StopAsync().GetAwaiter().GetResult();
            }

            return ExitCode.Unusable;
        }

        string? setUp = app.Services.GetService<Staff>()?.List.HasManager == false ? app.Services.GetRequiredService<SetUpCode>().Text : null;
        IServer server = app.Services.GetRequiredService<IServer>();
        ready?.Write(
            new Fronts(BoardAddresses.Plain(server), BoardAddresses.Secure(server), app.Services.GetService<ShopAuthority>()?.Fingerprint),
            app.Services.GetRequiredService<MqttService>().Address,
            setUp);
        app.WaitForShutdown();
        return ExitCode.Done;
    }

    private static string Why(Exception e, ServiceSettings settings) => e switch
    {
        SocketException => $"The board cannot listen on port {settings.Board.Port}{(settings.Board.Https is { } https ? $" or {https.Port}" : "")}: {e.Message}.",
        UnauthorizedAccessException => $"{settings.DataFolder}: data folder: {e.Message} This program has to be allowed to read and write every file in it.",
        _ => e.Message,
    };
}
