using MQTTnet.Diagnostics.Logger;

namespace CureWatch.Service.Mqtt;

/// <summary>Passes on what the MQTT library finds worth a warning; a client that breaks off is no trouble of the shop's.</summary>
internal sealed class BrokerLog(ILogger log) : IMqttNetLogger
{
    public bool IsEnabled => log.IsEnabled(LogLevel.Debug);

    public void Publish(MqttNetLogLevel logLevel, string source, string message, object[]? parameters, Exception? exception)
    {
        if (IsEnabled && logLevel >= MqttNetLogLevel.Warning)
        {
            Log.BrokerTold(log, exception, parameters is { Length: > 0 } ? string.Format(message, parameters) : message);
        }
    }
}
