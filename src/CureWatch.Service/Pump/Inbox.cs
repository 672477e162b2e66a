using System.Threading.Channels;

namespace CureWatch.Service.Pump;

/// <summary>Where everything that comes from outside waits for the pump. Bounded: a full inbox holds its senders back.</summary>
internal sealed class Inbox
{
    private const int Capacity = 20_000;

    private readonly Channel<Arrival> _arrivals =
        Channel.CreateBounded<Arrival>(new BoundedChannelOptions(Capacity) { SingleReader = true, FullMode = BoundedChannelFullMode.Wait });

    public ChannelReader<Arrival> Reader => _arrivals.Reader;

    /// <summary>Puts an arrival in; its <see cref="Arrival.Answered"/> completes in any case.</summary>
    public async ValueTask PostAsync(Arrival arrival, CancellationToken cancelled = default)
    {
        try
        {
            await _arrivals.Writer.WriteAsync(arrival, cancelled).ConfigureAwait(false);
        }
        catch (ChannelClosedException)
        {
            arrival.Complete(new Answer.NotStored("the service is stopping"));
        }
    }

    /// <summary>Puts an arrival in and waits for its answer.</summary>
    public async Task<Answer> AskAsync(Arrival arrival, CancellationToken cancelled = default)
    {
        await PostAsync(arrival, cancelled).ConfigureAwait(false);
        return await arrival.Answered.WaitAsync(cancelled).ConfigureAwait(false);
    }

    /// <summary>Takes nothing more.</summary>
    public void Close() => _arrivals.Writer.TryComplete();
}
