using System.Buffers;
using System.Net.Sockets;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using MQTTnet;
using MQTTnet.Packets;
using MQTTnet.Protocol;
using MQTTnet.Server;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// The broker inside this program. A message is acknowledged only once it is on disk, and a connection is not held up by that: it is taken
/// in <see cref="TakeAsync"/>, and its acknowledgement waits in <see cref="AcknowledgeAsync"/>.
/// </summary>
internal sealed class EmbeddedBroker : IOutlet, IAsyncDisposable
{
    /// <summary>Longer than any disk takes; a wait beyond it ends the connection. Source (choice).</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(30);

    /// <summary>How long a connection may take to say who it is. Source (choice).</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    /// <summary>Connections that have not yet said who they are, beside the clients. Source (choice).</summary>
    private const int Strangers = 50;

    /// <summary>How long the end waits for clients that do not take what they are sent; a stop is given ten seconds by most. Source (choice).</summary>
    private static readonly TimeSpan LongestFarewell = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(10);

    private readonly MqttSettings _settings;
    private readonly TopicDirectory _topics;
    private readonly Reception _reception;
    private readonly Doorkeeper _doorkeeper;
    private readonly ILogger<EmbeddedBroker> _log;
    private readonly int _largestPacket;
    private readonly Listener _listener;
    private readonly MqttServer _server;
    private readonly KeptTopics _kept;
    private readonly Connections _connections = new();

    public EmbeddedBroker(MqttSettings settings, LimitSettings limits, TopicDirectory topics, Reception reception, ILogger<EmbeddedBroker> log)
    {
        (_settings, _topics, _reception, _log) = (settings, topics, reception, log);
        bool isOpen = settings is { Listen: Listen.All, Users.IsEmpty: false };
        _largestPacket = limits.LargestPacketBytes;
        _listener = new Listener(settings.Port, isOpen, limits.Clients + Strangers, _largestPacket, RefuseTooLarge, log);
        MqttServerOptions options = new MqttServerOptionsBuilder().WithDefaultCommunicationTimeout(Patience).Build();
        _server = new MqttServerFactory().CreateMqttServer(options, [_listener], new BrokerLog(log));
        _doorkeeper = new Doorkeeper(_server, settings.Users, limits, log);
        _kept = new KeptTopics(limits.Retained);
        _server.ValidatingConnectionAsync += _doorkeeper.AdmitAsync;
        _server.InterceptingSubscriptionAsync += _doorkeeper.SubscribeAsync;
        _server.InterceptingInboundPacketAsync += NoteAsync;
        _server.InterceptingPublishAsync += TakeAsync;
        _server.InterceptingOutboundPacketAsync += AcknowledgeAsync;
    }

    /// <summary>The port it listens on, once it is started.</summary>
    public int Port => _listener.Port;

    /// <exception cref="IOException">The port cannot be listened on.</exception>
    public async Task StartAsync()
    {
        try
        {
            await _server.StartAsync().ConfigureAwait(false);
        }
        catch (SocketException e)
        {
            throw new IOException($"The embedded broker cannot listen on port {_settings.Port}: {e.Message}.", e);
        }
    }

    /// <summary>Lets the clients have what is still on its way to them, for a moment, and ends.</summary>
    public async Task StopAsync()
    {
        if (!_server.IsStarted)
        {
            return;
        }

        _server.AcceptNewConnections = false;
        long begun = TimeProvider.System.GetTimestamp();
        while (TimeProvider.System.GetElapsedTime(begun) < LongestFarewell && await IsSendingAsync().ConfigureAwait(false))
        {
            await Task.Delay(Step, TimeProvider.System).ConfigureAwait(false);
        }

        var farewell = new MqttServerClientDisconnectOptions { ReasonCode = MqttDisconnectReasonCode.ServerShuttingDown };
        await _server.StopAsync(new MqttServerStopOptions { DefaultClientDisconnectOptions = farewell }).ConfigureAwait(false);
    }

    public Task KeepAsync(string topic, ReadOnlyMemory<byte> payload, CancellationToken cancelled)
    {
        if (!_server.IsStarted)
        {
            throw new IOException("The embedded broker is not running.");
        }

        MqttApplicationMessage message = new MqttApplicationMessageBuilder()
            .WithTopic(topic).WithPayload(new ReadOnlySequence<byte>(payload)).WithRetainFlag().WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build();
        return _server.InjectApplicationMessage(new InjectedMqttApplicationMessage(message) { SenderClientId = "curewatch" }, cancelled);
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync().ConfigureAwait(false);
        _server.Dispose();
    }

    /// <summary>Of a message, only this event tells the packet; only the next one tells a topic behind an alias.</summary>
    private Task NoteAsync(InterceptingPacketEventArgs e)
    {
        if (e.Packet is MqttPublishPacket { QualityOfServiceLevel: > MqttQualityOfServiceLevel.AtMostOnce } packet)
        {
            _connections.Of(e.CancellationToken).Current = packet.PacketIdentifier;
        }
        else if (e.Packet is MqttPubRelPacket released)
        {
            _connections.Of(e.CancellationToken).Unreleased.Release(released.PacketIdentifier);
        }
        else if (e.Packet is MqttPubAckPacket or MqttPubCompPacket)
        {
            _connections.Of(e.CancellationToken).Hear();
        }

        return Task.CompletedTask;
    }

    private async Task TakeAsync(InterceptingPublishEventArgs e)
    {
        if (ReferenceEquals(e.SessionItems, _server.ServerSessionItems))
        {
            return;
        }

        MqttApplicationMessage message = e.ApplicationMessage;
        TopicMeaning meaning = _topics.Current.Find(message.Topic ?? "");
        if (!_doorkeeper.MayPublish(e, meaning))
        {
            await _reception.CountTurnedAwayAsync(meaning, message.Topic ?? "", e.CancellationToken).ConfigureAwait(false);
            return;
        }

        // A will comes from no connection: it is taken like any message, and nobody waits for its acknowledgement.
        Connection connection = e.CancellationToken.CanBeCanceled ? _connections.Of(e.CancellationToken) : new Connection();
        if (message.Retain && message.Payload.IsEmpty)
        {
            _kept.Forget(message.Topic!);
            await connection.Newest.WaitAsync(e.CancellationToken).ConfigureAwait(false); // or its acknowledgements would pile up behind a slow disk
            return;
        }

        bool isOnce = message.QualityOfServiceLevel == MqttQualityOfServiceLevel.ExactlyOnce;
        if (isOnce && connection.Unreleased.Find(connection.Current) is { } before)
        {
            connection.Await(before);
            e.ProcessPublish = false;
            return;
        }

        bool isRetained = message.Retain && meaning is not TopicMeaning.Tap;
        Receipt receipt = await _reception
            .TakeAsync(connection, meaning, message.Topic!, message.Payload, isRetained, e.CancellationToken).ConfigureAwait(false);
        if (message.QualityOfServiceLevel > MqttQualityOfServiceLevel.AtMostOnce)
        {
            connection.Await(receipt.Answered);
        }

        if (isOnce)
        {
            connection.Unreleased.Add(connection.Current, receipt.Answered);
        }

        if (receipt.Refusal is { } refusal)
        {
            e.ProcessPublish = false;
            e.Response.ReasonCode = receipt.Reason;
            e.Response.ReasonString = WireName<Readings.Disbelief>.Of(refusal);
            return;
        }

        message.Retain = isRetained && _kept.TryKeep(message.Topic!);
        if (isRetained && !message.Retain)
        {
            Log.TooMuchKept(_log, Doorkeeper.Shown(e.ClientId), message.Topic!);
        }
    }

    private async Task AcknowledgeAsync(InterceptingPacketEventArgs e)
    {
        if (e.Packet is MqttConnAckPacket welcome)
        {
            welcome.MaximumPacketSize = (uint)_largestPacket;
        }
        else if (e.Packet is MqttPublishPacket { QualityOfServiceLevel: > MqttQualityOfServiceLevel.AtMostOnce })
        {
            _connections.Of(e.CancellationToken).Send();
        }

        if (e.Packet is not (MqttPubAckPacket or MqttPubRecPacket)
            || _connections.Find(e.CancellationToken) is not { } connection
            || connection.TakeAwaited(((MqttPacketWithIdentifier)e.Packet).PacketIdentifier) is not { } awaited)
        {
            return;
        }

        string? trouble;
        try
        {
            Answer answer = await awaited.WaitAsync(LongestWait, TimeProvider.System, e.CancellationToken).ConfigureAwait(false);
            trouble = (answer as Answer.NotStored)?.Why;
        }
        catch (TimeoutException)
        {
            trouble = "it took too long";
        }

        if (trouble is not null)
        {
            e.ProcessPacket = false;
            await _doorkeeper.DropAsync(e.ClientId, trouble).ConfigureAwait(false);
        }
    }

    private void RefuseTooLarge(int bytes)
    {
        Log.PacketTooLarge(_log, bytes, _largestPacket);
        _ = _reception.RefuseUnreadAsync();
    }

    private async Task<bool> IsSendingAsync()
    {
        IList<MqttSessionStatus> sessions = await _server.GetSessionsAsync().ConfigureAwait(false);
        return sessions.Any(s => s.PendingApplicationMessagesCount > 0) || _connections.IsAnyUnheard;
    }
}
