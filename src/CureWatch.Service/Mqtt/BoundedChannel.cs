using System.Net;
using System.Security.Cryptography.X509Certificates;
using MQTTnet;
using MQTTnet.Adapter;
using MQTTnet.Diagnostics.Logger;
using MQTTnet.Formatter;
using MQTTnet.Implementations;
using MQTTnet.Packets;

namespace CureWatch.Service.Mqtt;

/// <summary>A connection with an external broker that is read no faster than its messages are dealt with.</summary>
/// <param name="inner">The connection.</param>
/// <param name="ahead">What was read and is not dealt with.</param>
internal sealed class BoundedChannel(IMqttChannelAdapter inner, ReadAhead ahead) : IMqttChannelAdapter
{
    public long BytesReceived => inner.BytesReceived;

    public long BytesSent => inner.BytesSent;

    public X509Certificate2 ClientCertificate => inner.ClientCertificate;

    public EndPoint RemoteEndPoint => inner.RemoteEndPoint;

    public EndPoint LocalEndPoint => inner.LocalEndPoint;

    public bool IsSecureConnection => inner.IsSecureConnection;

    public MqttPacketFormatterAdapter PacketFormatterAdapter => inner.PacketFormatterAdapter;

    public Task ConnectAsync(CancellationToken cancellationToken) => inner.ConnectAsync(cancellationToken);

    public Task DisconnectAsync(CancellationToken cancellationToken) => inner.DisconnectAsync(cancellationToken);

    public async Task<MqttPacket> ReceivePacketAsync(CancellationToken cancellationToken)
    {
        MqttPacket packet = await inner.ReceivePacketAsync(cancellationToken).ConfigureAwait(false);
        if (packet is MqttPublishPacket message)
        {
            await ahead.AddAsync(message.Payload.Length, cancellationToken).ConfigureAwait(false);
        }

        return packet;
    }

    public void ResetStatistics() => inner.ResetStatistics();

    public Task SendPacketAsync(MqttPacket packet, CancellationToken cancellationToken) => inner.SendPacketAsync(packet, cancellationToken);

    public void Dispose() => inner.Dispose();

    /// <summary>Makes such connections for the MQTT library.</summary>
    internal sealed class Factory(ReadAhead ahead) : IMqttClientAdapterFactory
    {
        public IMqttChannelAdapter CreateClientAdapter(MqttClientOptions options, MqttPacketInspector packetInspector, IMqttNetLogger logger) =>
            new BoundedChannel(new MqttClientAdapterFactory().CreateClientAdapter(options, packetInspector, logger), ahead);
    }
}
