using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CureWatch.Service.Settings;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Packets;
using MQTTnet.Protocol;

namespace CureWatch.Service.Mqtt;

/// <summary>How the connection with an external broker is opened, and what is asked of it.</summary>
internal static class BrokerLinkOptions
{
    /// <summary>A long weekend with the computer off, and a few days more. Source (choice).</summary>
    private static readonly TimeSpan SessionExpiry = TimeSpan.FromDays(7);
    private static readonly TimeSpan KeepAlive = TimeSpan.FromSeconds(15);

    /// <summary>How a connection is ended that is begun anew at once: the broker keeps what we have not acknowledged.</summary>
    public static readonly MqttClientDisconnectOptions Farewell = new() { SessionExpiryInterval = (uint)SessionExpiry.TotalSeconds };

    /// <summary>Most messages the broker may send ahead of our acknowledgements. Source (choice): one batch of the pump's.</summary>
    private const ushort ReceiveMaximum = 2_000;

    /// <exception cref="IOException">The file of the certificate authority cannot be read.</exception>
    /// <exception cref="CryptographicException">It holds no certificate.</exception>
    public static MqttClientOptions Of(ExternalBroker broker, LimitSettings limits, Topics topics)
    {
        MqttClientOptionsBuilder options = new MqttClientOptionsBuilder()
            .WithTcpServer(broker.Host, broker.Port)
            .WithProtocolVersion(MqttProtocolVersion.V500)
            .WithClientId(broker.ClientId)
            .WithCleanStart(false)
            .WithSessionExpiryInterval((uint)SessionExpiry.TotalSeconds)
            .WithKeepAlivePeriod(KeepAlive)
            .WithReceiveMaximum(ReceiveMaximum)
            .WithMaximumPacketSize((uint)limits.LargestPacketBytes)
            .WithWillTopic(topics.Status)
            .WithWillPayload(Topics.Offline.ToArray())
            .WithWillRetain()
            .WithWillQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce);
        if (broker.User is not null)
        {
            options.WithCredentials(broker.User, broker.Password ?? "");
        }

        if (broker.Tls)
        {
            options.WithTlsOptions(tls =>
            {
                tls.UseTls().WithTargetHost(broker.Host);
                if (broker.CertificateAuthorityFile is { } file)
                {
                    var authorities = new X509Certificate2Collection();
                    authorities.ImportFromPemFile(file);
                    if (authorities.Count == 0)
                    {
                        throw new CryptographicException($"{file} holds no certificate");
                    }

                    tls.WithTrustChain(authorities).WithRevocationMode(X509RevocationMode.NoCheck); // a shop's own authority has no revocation list
                }
            });
        }

        return options.Build();
    }

    /// <summary>What is taken in: a broker sends what it kept only where the subscription is new to it, or every reconnection would bring it again.</summary>
    public static IEnumerable<MqttTopicFilter> Inputs(TopicMap map) =>
        from topic in map.OwnTopics.Where(t => !t.StartsWith(map.Topics!.Root + "/", StringComparison.Ordinal))
            .Concat([map.Topics!.Probe("+", "+"), map.Topics.Tap("+")])
        select new MqttTopicFilter
        {
            Topic = topic,
            QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
            RetainHandling = MqttRetainHandling.SendAtSubscribeIfNewSubscriptionOnly,
        };

    /// <summary>What an earlier run may have left behind on our own topics.</summary>
    public static IEnumerable<MqttTopicFilter> Leftovers(Topics topics) =>
        from topic in new[]
        {
            topics.Climate("+"), $"{topics.Root}/+/warnings/+", topics.Trouble("+"), topics.Tonight("+"), topics.Morning("+"), topics.Plan("+"),
            topics.Windows("+"), topics.Handover("+"), topics.Start("+"), topics.Promise("+"),
        }
        select new MqttTopicFilter { Topic = topic, QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce, NoLocal = true };
}
