namespace CureWatch.Service.Demo;

/// <summary>Where the running service is reached, as anybody would.</summary>
internal sealed record DemoAddresses(Uri Board, int MqttPort);
