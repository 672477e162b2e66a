namespace CureWatch.Service.Mqtt;

/// <summary>What the brokers log; ids 2400 to 2499.</summary>
internal static partial class Log
{
    [LoggerMessage(2400, LogLevel.Warning, "A tap was refused: {Faults}")]
    public static partial void TapRefused(ILogger logger, string faults);

    [LoggerMessage(2401, LogLevel.Warning, "A tap on {Topic} was refused: there is no job '{Job}'.")]
    public static partial void TapOfNoJob(ILogger logger, string topic, string job);

    [LoggerMessage(2402, LogLevel.Warning, "A tap on {Topic} was kept by a broker and is not taken: send taps without the retain flag.")]
    public static partial void KeptTapIgnored(ILogger logger, string topic);

    [LoggerMessage(2403, LogLevel.Warning, "Client '{Client}' may not publish on {Topic}.")]
    public static partial void PublishForbidden(ILogger logger, string client, string topic);

    [LoggerMessage(2404, LogLevel.Warning, "Client '{Client}' may not subscribe to {Topic}.")]
    public static partial void SubscribeForbidden(ILogger logger, string client, string topic);

    [LoggerMessage(2405, LogLevel.Warning, "A client was refused: {Reason}.")]
    public static partial void ClientRefused(ILogger logger, string reason);

    [LoggerMessage(2406, LogLevel.Warning, "Client '{Client}' was disconnected: what it sent could not be stored ({Reason}).")]
    public static partial void ClientDropped(ILogger logger, string client, string reason);

    [LoggerMessage(2407, LogLevel.Warning, "What client '{Client}' sends on {Topic} is not kept: the broker keeps as many messages of others as it may.")]
    public static partial void TooMuchKept(ILogger logger, string client, string topic);

    [LoggerMessage(2408, LogLevel.Debug, "Broker: {Message}")]
    public static partial void BrokerTold(ILogger logger, Exception? e, string message);

    [LoggerMessage(2409, LogLevel.Warning, "What the shop publishes could not be sent. It is tried again.")]
    public static partial void NotPublished(ILogger logger, Exception e);

    [LoggerMessage(2410, LogLevel.Information, "Connected with the broker at {Host}:{Port}; it had {What} of before.")]
    public static partial void Connected(ILogger logger, string host, int port, string what);

    [LoggerMessage(2411, LogLevel.Warning, "The broker at {Host}:{Port} is not reached: {Reason}. It is tried until it is.")]
    public static partial void NotReached(ILogger logger, string host, int port, string reason);

    [LoggerMessage(2412, LogLevel.Warning, "The broker does not let us subscribe to {Topic}: {Reason}.")]
    public static partial void NotSubscribed(ILogger logger, string topic, string reason);

    [LoggerMessage(2413, LogLevel.Warning, "The broker does not let us publish on {Topic}: {Reason}.")]
    public static partial void NotAllowed(ILogger logger, string topic, string reason);

    [LoggerMessage(2414, LogLevel.Warning, "The connection with the broker is begun anew: what it brought could not be stored ({Reason}).")]
    public static partial void BrokerLeft(ILogger logger, string reason);

    [LoggerMessage(2415, LogLevel.Warning, "A client was disconnected: it began a packet of {Bytes} bytes or more, and {Most} are allowed.")]
    public static partial void PacketTooLarge(ILogger logger, int bytes, int most);

    [LoggerMessage(2421, LogLevel.Warning, "Connections to port {Port} are closed unheard: {Most} are open, as many as may be. It is said once a minute.")]
    public static partial void Full(ILogger logger, int port, int most);
}
