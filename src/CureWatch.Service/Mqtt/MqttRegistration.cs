using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Mqtt;

/// <summary>What the shop needs to be open to MQTT.</summary>
internal static class MqttRegistration
{
    public static IServiceCollection AddMqtt(this IServiceCollection services, MqttSettings settings, LimitSettings limits)
    {
        services
            .AddSingleton<TopicDirectory>()
            .AddSingleton(s => new CatchUp(s.GetRequiredService<Inbox>(), TimeProvider.System))
            .AddSingleton(s => ActivatorUtilities.CreateInstance<Reception>(s, limits))
            .AddSingleton(s => new Outputs(
                s.GetRequiredService<Latest>(),
                s.GetRequiredService<IOutlet>(),
                s.GetRequiredService<Troubles>(),
                TimeProvider.System,
                s.GetRequiredService<ILogger<Outputs>>()))
            .AddSingleton<IFollower>(s => s.GetRequiredService<Outputs>())
            .AddSingleton(s => ActivatorUtilities.CreateInstance<MqttService>(s, settings))
            .AddHostedService(s => s.GetRequiredService<MqttService>());
        return settings.External is { } external
            ? services
                .AddSingleton(s => ActivatorUtilities.CreateInstance<BrokerLink>(s, external, limits, TimeProvider.System, Random.Shared))
                .AddSingleton<IOutlet>(s => s.GetRequiredService<BrokerLink>())
                .AddSingleton<IFollower>(s => s.GetRequiredService<BrokerLink>())
            : services
                .AddSingleton(s => ActivatorUtilities.CreateInstance<EmbeddedBroker>(s, settings, limits))
                .AddSingleton<IOutlet>(s => s.GetRequiredService<EmbeddedBroker>());
    }
}
