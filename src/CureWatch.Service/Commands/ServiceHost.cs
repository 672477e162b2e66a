using System.Net;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace CureWatch.Service.Commands;

/// <summary>The service put together: pump first, then whatever feeds it or follows it.</summary>
internal sealed class ServiceHost(WebApplication app)
{
    public IServiceProvider Services => app.Services;

    /// <param name="settings">How it runs.</param>
    /// <param name="config">The configuration folder.</param>
    /// <param name="folder">The data folder, held by the caller.</param>
    /// <param name="clock">The only clock that decides anything.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <param name="more">What else to register.</param>
    /// <returns>The service, or null where data or settings cannot be used.</returns>
    public static ServiceHost? Build(
        ServiceSettings settings, string config, DataFolder folder, TimeProvider clock, Faults faults, Action<IServiceCollection>? more = null)
    {
        if (Recovered.From(folder, config, isForced: false, faults) is not { } recovered)
        {
            return null;
        }

        // Nothing of this machine's other settings, such as ASPNETCORE_URLS or an appsettings.json somewhere, changes this service.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, ApplicationName = typeof(ServiceHost).Assembly.GetName().Name });
        builder.Logging.AddSimpleConsole(o => o.SingleLine = true).SetMinimumLevel(LogLevel.Information)
            .AddFilter("Microsoft", LogLevel.Warning).AddFilter("Quartz", LogLevel.Warning);
        builder.Services.Configure<Microsoft.Extensions.Logging.Console.ConsoleLoggerOptions>(o => o.LogToStandardErrorThreshold = LogLevel.Trace);
        builder.Services.AddSystemd().AddWindowsService();
        builder.WebHost.UseKestrelCore().ConfigureKestrel(o =>
        {
            o.AddServerHeader = false;
            if (settings.Board.Listen == Listen.All)
            {
                o.ListenAnyIP(settings.Board.Port);
            }
            else
            {
                o.Listen(IPAddress.Loopback, settings.Board.Port);
            }
        });

        builder.Services.AddSingleton(clock).AddSingleton(settings).AddRoutingCore();
        builder.Services.AddPump(folder, recovered.Register, recovered.End, recovered.First);
        more?.Invoke(builder.Services);
        return new ServiceHost(builder.Build());
    }

    /// <summary>Runs until it is told to stop.</summary>
    /// <returns>The exit code.</returns>
    public int Run(ReadyLine ready, TextWriter error)
    {
        try
        {
            app.Start();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            error.WriteLine(e.Message.ReplaceLineEndings(" "));
            app.StopAsync().GetAwaiter().GetResult();
            return ExitCode.Unusable;
        }

        ready.Write(BoardAddress(), "");
        app.WaitForShutdown();
        return ExitCode.Done;
    }

    public string BoardAddress() => app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
}
