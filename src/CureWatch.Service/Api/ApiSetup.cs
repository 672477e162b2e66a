using CureWatch.Service.Backups;
using CureWatch.Service.Settings;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace CureWatch.Service.Api;

/// <summary>Puts the HTTP interface into a host that has the pump, the book, the clock and <see cref="ServiceSettings"/>.</summary>
internal static class ApiSetup
{
    public static IServiceCollection AddApi(this IServiceCollection services)
    {
        services.Configure<KestrelServerOptions>(o => (o.AddServerHeader, o.Limits.MaxRequestBodySize) = (false, Body.Most));
        services.AddSingleton<Lookout>();
        services.AddSingleton<BackupHealth>();
        services.AddSingleton<Past>();
        services.AddSingleton<LiveFeed>();
        services.AddHostedService(provider => provider.GetRequiredService<LiveFeed>());
        services.AddApiDescription();
        return services;
    }

    /// <summary>Guards every request of the application, and finds its endpoint.</summary>
    public static WebApplication UseGuards(this WebApplication app)
    {
        BoardSettings board = app.Services.GetRequiredService<ServiceSettings>().Board;
        app.UseMiddleware<Doorkeeper>(new HostRule(board.Hosts), board.IsSignedIn);
        app.UseMiddleware<HeadAsGet>();
        app.UseMiddleware<PlainProblems>();
        app.UseRouting();
        return app;
    }

    /// <summary>Maps the interface.</summary>
    public static WebApplication MapApi(this WebApplication app)
    {
        RouteGroupBuilder api = app.MapGroup("/api/v1");
        BayEndpoints.Map(api);
        NightEndpoints.Map(api);
        StartEndpoints.Map(api);
        ArrivalEndpoints.Map(api);
        JobEndpoints.Map(api);
        PhotoEndpoints.Map(api);
        ShopEndpoints.Map(api);
        LearningEndpoints.Map(api);
        PlanEndpoints.Map(api);
        PastEndpoints.Map(api);
        ReadingEndpoints.Map(api);
        LiveEndpoint.Map(api);
        HealthEndpoints.Map(app);
        app.MapApiDescription();
        return app;
    }
}
