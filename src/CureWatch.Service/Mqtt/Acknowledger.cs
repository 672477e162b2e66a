using System.Threading.Channels;
using CureWatch.Service.Pump;
using MQTTnet;
using MQTTnet.Protocol;

namespace CureWatch.Service.Mqtt;

/// <summary>Acknowledges one connection's messages to an external broker in the order they came, each once it is on disk.</summary>
/// <param name="ahead">What was read of the connection and is not dealt with.</param>
/// <param name="giveUp">Told why where something could not be stored; nothing more is acknowledged then, and the broker sends it again on the next connection.</param>
internal sealed class Acknowledger(ReadAhead ahead, Action<string> giveUp)
{
    private readonly Channel<(MqttApplicationMessageReceivedEventArgs Message, Task<Answer> Answered)> _messages =
        Channel.CreateUnbounded<(MqttApplicationMessageReceivedEventArgs, Task<Answer>)>(new UnboundedChannelOptions { SingleReader = true });

    private volatile bool _hasGivenUp;

    /// <summary>Whether something could not be stored.</summary>
    public bool HasGivenUp => _hasGivenUp;

    /// <summary>Leaves a message for the next connection.</summary>
    public void Leave(MqttApplicationMessage message) => ahead.Remove(message);

    /// <summary>Adds a message. What may be read ahead bounds how many can wait.</summary>
    public void Add(MqttApplicationMessageReceivedEventArgs message, Task<Answer> answered)
    {
        if (message.ApplicationMessage.QualityOfServiceLevel > MqttQualityOfServiceLevel.AtMostOnce)
        {
            _messages.Writer.TryWrite((message, answered));
        }
        else
        {
            ahead.Remove(message.ApplicationMessage);
        }
    }

    public void Close() => _messages.Writer.TryComplete();

    public async Task RunAsync(CancellationToken cancelled)
    {
        await foreach ((MqttApplicationMessageReceivedEventArgs message, Task<Answer> answered) in _messages.Reader.ReadAllAsync(cancelled).ConfigureAwait(false))
        {
            if (!_hasGivenUp && await answered.WaitAsync(cancelled).ConfigureAwait(false) is Answer.NotStored trouble)
            {
                _hasGivenUp = true;
                giveUp(trouble.Why);
            }

            if (_hasGivenUp)
            {
                Leave(message.ApplicationMessage);
                continue;
            }

            try
            {
                await message.AcknowledgeAsync(cancelled).ConfigureAwait(false);
                ahead.Remove(message.ApplicationMessage);
            }
#pragma warning disable CA1031 // the library throws many kinds once a connection is gone, and on the next one the message comes again
            catch (Exception) when (!cancelled.IsCancellationRequested)
#pragma warning restore CA1031
            {
                return;
            }
        }
    }
}
