using System.Buffers;
using System.Security.Cryptography;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;
using MQTTnet;
using MQTTnet.Exceptions;
using MQTTnet.Packets;
using MQTTnet.Protocol;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// The connection with a broker that somebody else runs: opened again and again until it stands, each time by a client of its own, so that
/// nothing of the one before can be acknowledged on it.
/// </summary>
internal sealed class BrokerLink(
    ExternalBroker broker,
    LimitSettings limits,
    TopicDirectory topics,
    Reception reception,
    Troubles troubles,
    TimeProvider time,
    Random chance,
    ILogger<BrokerLink> log) : IOutlet, IFollower
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private static readonly AlarmRule Rule = AlarmRule.Of(WarningKind.BrokerTrouble);

    private volatile IMqttClient? _client;

    /// <summary>Since when no connection stood for as long as a warning takes to be over; null while one does.</summary>
    private long? _awaySince;

    private volatile TaskCompletionSource _changed = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Happens each time the connection stands.</summary>
    public event Action? Opened;

    /// <summary>Happens where the broker kept something on a topic that only this program writes.</summary>
    public event Action<string>? Found;

    /// <summary>Why the broker is not reached; null while it is.</summary>
    public string? Trouble { get; private set; } = "not connected yet";

    public void Follow(Commit commit)
    {
        if (commit.Steps.Any(s => s.Entry is Entry.SettingsChanged { Item.Kind: SettingsItem.Shop }))
        {
            _changed.TrySetResult();
        }
    }

    public async Task KeepAsync(string topic, ReadOnlyMemory<byte> payload, CancellationToken cancelled)
    {
        MqttApplicationMessage message = new MqttApplicationMessageBuilder()
            .WithTopic(topic).WithPayload(new ReadOnlySequence<byte>(payload)).WithRetainFlag().WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build();
        IMqttClient client = _client ?? throw new BrokerAwayException();
        try
        {
            MqttClientPublishResult result = await client.PublishAsync(message, cancelled).WaitAsync(Patience, time, cancelled).ConfigureAwait(false);
            if (!result.IsSuccess)
            {
                Log.NotAllowed(log, topic, $"{result.ReasonCode}");
            }
        }
        catch (Exception e) when (IsBrokenOff(e) && !cancelled.IsCancellationRequested)
        {
            throw new IOException($"The broker did not take what is kept on {topic}: {e.Message}", e);
        }
    }

    /// <summary>Keeps the connection up until it is cancelled.</summary>
    public async Task RunAsync(CancellationToken cancelled)
    {
        for (int failures = 0; !cancelled.IsCancellationRequested; failures++)
        {
            long begun = time.GetTimestamp();
            TimeSpan Rest()
            {
                failures = time.GetElapsedTime(begun) >= Rule.OffDelay ? 0 : failures;
                return BackOff.After(failures, chance.NextDouble());
            }

            try
            {
                var ahead = new ReadAhead();
                using IMqttClient client = new MqttClientFactory().CreateMqttClient(new BrokerLog(log), new BoundedChannel.Factory(ahead));
                await HoldAsync(client, ahead, Rest, cancelled).ConfigureAwait(false);
            }
            catch (NotStoredException)
            {
                _awaySince = null; // it is there: that nothing can be stored is told by whoever stores
                troubles.Clear(Rule.Kind);
                continue; // it has rested while the connection stood
            }
            catch (Exception e) when (IsBrokenOff(e) && !cancelled.IsCancellationRequested)
            {
                Trouble = e.Message;
                if (_awaySince is null)
                {
                    failures = 0;
                    Log.NotReached(log, broker.Host, broker.Port, e.Message);
                }

                _awaySince ??= time.GetTimestamp();
                if (time.GetElapsedTime(_awaySince.Value) >= Rule.OnDelay)
                {
                    troubles.Raise(Rule.Kind, $"{e.Message} ({broker.Host}, port {broker.Port})");
                }
            }
            finally
            {
                _client = null;
            }

            await Task.Delay(BackOff.After(failures, chance.NextDouble()), time, cancelled).ConfigureAwait(false);
        }
    }

    private async Task HoldAsync(IMqttClient client, ReadAhead ahead, Func<TimeSpan> rest, CancellationToken cancelled)
    {
        var ended = new TaskCompletionSource<string>(TaskCreationOptions.RunContinuationsAsynchronously);
        client.DisconnectedAsync += e =>
        {
            ended.TrySetResult(e.ReasonString ?? e.Exception?.Message ?? $"{e.Reason}");
            return Task.CompletedTask;
        };
        var acknowledger = new Acknowledger(ahead, why =>
        {
            Log.BrokerLeft(log, why);
            ended.TrySetException(new NotStoredException(why));
        });
        var connection = new Connection();
        client.ApplicationMessageReceivedAsync += e => ReceiveAsync(connection, acknowledger, e, cancelled);

        TopicMap map = topics.Current;
        Topics names = map.Topics ?? throw new IOException("no shop is set up yet");
        MqttClientConnectResult result = await client.ConnectAsync(BrokerLinkOptions.Of(broker, limits, names), cancelled)
            .WaitAsync(Patience, time, cancelled).ConfigureAwait(false);
        if (result.ResultCode != MqttClientConnectResultCode.Success)
        {
            throw new IOException($"it refused us ({result.ResultCode})");
        }

        Log.Connected(log, broker.Host, broker.Port, result.IsSessionPresent ? "our session" : "nothing");
        Task acknowledging = acknowledger.RunAsync(cancelled);
        _client = client;
        try
        {
            await SubscribeAsync(client, BrokerLinkOptions.Inputs(map).Concat(BrokerLinkOptions.Leftovers(names)), cancelled).ConfigureAwait(false);
            Trouble = null;
            Opened?.Invoke();
            await StayAsync(client, ended.Task, cancelled).ConfigureAwait(false);
            throw new IOException(await ended.Task.ConfigureAwait(false));
        }
        catch (NotStoredException)
        {
            await RestAsync(client, rest(), cancelled).ConfigureAwait(false);
            throw;
        }
        finally
        {
            acknowledger.Close();
            await acknowledging.ConfigureAwait(false);
        }
    }

    private async Task StayAsync(IMqttClient client, Task ended, CancellationToken cancelled)
    {
        Task steady = Task.Delay(Rule.OffDelay, time, cancelled);
        while (await Task.WhenAny(ended, _changed.Task, steady).WaitAsync(cancelled).ConfigureAwait(false) is { } first && first != ended)
        {
            if (first == steady)
            {
                steady = ended;
                _awaySince = null;
                troubles.Clear(Rule.Kind);
            }
            else
            {
                _changed = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
                await SubscribeAsync(client, BrokerLinkOptions.Inputs(topics.Current), cancelled).ConfigureAwait(false);
            }
        }
    }

    /// <summary>
    /// Leaves the connection open for a while, so that what the shop publishes gets out, and then ends it, so that the broker sends again what could not be
    /// stored; in good order, or its will would say that we are gone.
    /// </summary>
    private async Task RestAsync(IMqttClient client, TimeSpan rest, CancellationToken cancelled)
    {
        await Task.Delay(rest, time, cancelled).ConfigureAwait(false);
        _client = null;
        try
        {
            await client.DisconnectAsync(BrokerLinkOptions.Farewell, cancelled).WaitAsync(Patience, time, cancelled).ConfigureAwait(false);
        }
        catch (Exception e) when (IsBrokenOff(e) && !cancelled.IsCancellationRequested)
        {
            // It is ended in any case.
        }
    }

    private async Task SubscribeAsync(IMqttClient client, IEnumerable<MqttTopicFilter> filters, CancellationToken cancelled)
    {
        var options = new MqttClientSubscribeOptions { TopicFilters = [.. filters] };
        MqttClientSubscribeResult result = await client.SubscribeAsync(options, cancelled).WaitAsync(Patience, time, cancelled).ConfigureAwait(false);
        foreach (MqttClientSubscribeResultItem item in result.Items.Where(i => i.ResultCode > MqttClientSubscribeResultCode.GrantedQoS2))
        {
            Log.NotSubscribed(log, item.TopicFilter.Topic, $"{item.ResultCode}");
        }
    }

    private async Task ReceiveAsync(Connection connection, Acknowledger acknowledger, MqttApplicationMessageReceivedEventArgs e, CancellationToken cancelled)
    {
        e.AutoAcknowledge = false;
        MqttApplicationMessage message = e.ApplicationMessage;
        if (acknowledger.HasGivenUp && message.QualityOfServiceLevel > MqttQualityOfServiceLevel.AtMostOnce)
        {
            acknowledger.Leave(message);
            return;
        }

        TopicMeaning meaning = topics.Current.Find(message.Topic);
        if (meaning is TopicMeaning.Foreign && message.Retain)
        {
            Found?.Invoke(message.Topic);
        }

        Receipt receipt = await reception.TakeAsync(connection, meaning, message.Topic, message.Payload, message.Retain, cancelled).ConfigureAwait(false);
        acknowledger.Add(e, receipt.Answered);
    }

    /// <summary>We ended the connection, so that the broker sends again what could not be stored.</summary>
    private sealed class NotStoredException(string why) : Exception(why);

    private static bool IsBrokenOff(Exception e) =>
        e is MqttCommunicationException or MqttClientNotConnectedException or IOException or TimeoutException or OperationCanceledException
            or InvalidOperationException or ObjectDisposedException or CryptographicException or UnauthorizedAccessException
            or System.Net.Sockets.SocketException;
}
