using CureWatch.Service.Pump;

namespace CureWatch.Service.Demo;

/// <summary>Registers the driver of the demo, last of all: it acts on what the others serve.</summary>
internal static class DemoRegistration
{
    /// <param name="services">Where to register.</param>
    /// <param name="clock">The service's clock.</param>
    /// <param name="settings">How the demo is played.</param>
    /// <param name="addresses">Where the service is reached, once it has started.</param>
    public static IServiceCollection AddDemo(
        this IServiceCollection services,
        SteppedClock clock,
        DemoSettings settings,
        Func<IServiceProvider, DemoAddresses> addresses) => services
            .AddSingleton<Stirring>()
            .AddSingleton<IFollower>(p => p.GetRequiredService<Stirring>())
            .AddSingleton(p => new DemoDriver(
                clock,
                p.GetRequiredService<Latest>(),
                p.GetRequiredService<Stirring>(),
                settings,
                () => addresses(p),
                p.GetRequiredService<IHostApplicationLifetime>(),
                p.GetRequiredService<ILogger<DemoDriver>>()))
            .AddHostedService(p => p.GetRequiredService<DemoDriver>());
}
