using System.Collections;
using System.Collections.Concurrent;
using System.Collections.Immutable;
using CureWatch.Service.Settings;
using MQTTnet.Formatter;
using MQTTnet.Protocol;
using MQTTnet.Server;

namespace CureWatch.Service.Mqtt;

/// <summary>Says who may come into the embedded broker, and what they may do there.</summary>
internal sealed class Doorkeeper(MqttServer server, ImmutableArray<MqttUser> users, LimitSettings limits, ILogger log)
{
    /// <summary>More than this many refusals are not told one by one. Source (choice).</summary>
    private const int MostTold = 1_000;

    /// <summary>A topic or a client id may have 65,535 bytes; this much tells it from others. Source (choice).</summary>
    private const int LongestTold = 120;

    private static readonly object VisitorKey = new();

    private readonly ConcurrentDictionary<(string Client, string Topic), byte> _told = new();
    private int _unnamed;

    public async Task AdmitAsync(ValidatingConnectionEventArgs e)
    {
        if (string.IsNullOrEmpty(e.ClientId) && e.ProtocolVersion < MqttProtocolVersion.V500)
        {
            Refuse(e, MqttConnectReasonCode.ClientIdentifierNotValid, "it brought no client id");
        }
        else if (Visitor.Admit(users, e.UserName, e.Password) is not { } visitor)
        {
            Refuse(e, MqttConnectReasonCode.BadUserNameOrPassword, $"wrong user name or password for client id '{e.ClientId}'");
        }
        else
        {
            IList<MqttClientStatus> clients = await server.GetClientsAsync().ConfigureAwait(false);
            MqttClientStatus? before = clients.FirstOrDefault(c => c.Id == e.ClientId);
            if (before is null && clients.Count >= limits.Clients)
            {
                Refuse(e, MqttConnectReasonCode.ServerBusy, $"{limits.Clients} clients are connected already");
            }
            else if (before is not null && VisitorOf(before.Session.Items) != visitor)
            {
                // The broker would hand the other's session, and with it the other's rights, to the newcomer.
                Refuse(e, MqttConnectReasonCode.ClientIdentifierNotValid, $"client id '{e.ClientId}' is another user's");
            }
            else
            {
                e.SessionItems[VisitorKey] = visitor;
                if (string.IsNullOrEmpty(e.ClientId))
                {
                    // Version 5 lets a broker name a client that brings no id, and its usual tools rely on that.
                    e.AssignedClientIdentifier = $"unnamed-{Interlocked.Increment(ref _unnamed)}";
                }
            }
        }
    }

    public Task SubscribeAsync(InterceptingSubscriptionEventArgs e)
    {
        if (VisitorOf(e.SessionItems) is not { MaySubscribe: true })
        {
            e.ProcessSubscription = false;
            e.Response.ReasonCode = MqttSubscribeReasonCode.NotAuthorized;
            Tell(Log.SubscribeForbidden, e.ClientId, e.TopicFilter.Topic);
        }

        return Task.CompletedTask;
    }

    /// <summary>Whether a message is let in.</summary>
    public bool MayPublish(InterceptingPublishEventArgs e, TopicMeaning meaning)
    {
        if (VisitorOf(e.SessionItems)?.MayPublish(meaning) == true)
        {
            return true;
        }

        e.ProcessPublish = false;
        e.Response.ReasonCode = MqttPubAckReasonCode.NotAuthorized;
        Tell(Log.PublishForbidden, e.ClientId, e.ApplicationMessage.Topic);
        return false;
    }

    /// <summary>Ends a connection, and tells why once: while a disk is full every client comes back each second.</summary>
    public async Task DropAsync(string client, string why)
    {
        Tell(Log.ClientDropped, client, why);
        try
        {
            await server.DisconnectClientAsync(
                client, new MqttServerClientDisconnectOptions { ReasonCode = MqttDisconnectReasonCode.UnspecifiedError }).ConfigureAwait(false);
        }
        catch (InvalidOperationException)
        {
            // It has gone already.
        }
    }

    /// <summary>A name that does no harm to whoever reads the log: a client calls itself and its topics what it likes.</summary>
    public static string Shown(string name) => OneLine.Of(name, LongestTold);

    private static Visitor? VisitorOf(IDictionary session) => session[VisitorKey] as Visitor;

    private void Refuse(ValidatingConnectionEventArgs e, MqttConnectReasonCode code, string reason)
    {
        e.ReasonCode = code;
        e.ReasonString = reason;
        Tell((l, _, r) => Log.ClientRefused(l, r), "", reason);
    }

    /// <summary>Tells each thing once.</summary>
    private void Tell(Action<ILogger, string, string> told, string client, string topic)
    {
        (client, topic) = (Shown(client), Shown(topic));
        if (_told.Count < MostTold && _told.TryAdd((client, topic), 0))
        {
            told(log, client, topic);
        }
    }
}
