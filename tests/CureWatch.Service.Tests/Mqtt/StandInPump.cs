using System.Collections.Concurrent;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Takes arrivals as the pump does, and answers as a test wants.</summary>
internal sealed class StandInPump : IAsyncDisposable
{
    private const int MostInBatch = 2_000;

    private readonly ConcurrentQueue<Arrival> _taken = new();
    private readonly Task _reading;

    /// <param name="inbox">Where arrivals wait.</param>
    /// <param name="answer">The answer; null for none yet.</param>
    public StandInPump(Inbox inbox, Func<Arrival, Answer?>? answer = null)
    {
        Inbox = inbox;
        _reading = Task.Factory.StartNew(
            () =>
            {
                var batch = new List<Arrival>();
                for (; inbox.Take(batch, MostInBatch); batch.Clear())
                {
                    batch.ForEach(a => Take(a, answer));
                }
            },
            CancellationToken.None,
            TaskCreationOptions.LongRunning,
            TaskScheduler.Default);
    }

    public Inbox Inbox { get; }

    public IEnumerable<Arrival> Taken => _taken;

    public IEnumerable<Service.Journal.Entry.Reading> Readings => _taken.OfType<Arrival.Reading>().Select(r => r.Entry);

    public IEnumerable<string> Refusals => _taken.OfType<Arrival.Refusal>().Select(r => $"{r.Reason} {r.Place}");

    /// <summary>Waits for as many refusals as are expected: nobody waits for one before acknowledging.</summary>
    public async Task RefusesAsync(params string[] expected)
    {
        await Eventually.TrueAsync(() => Refusals.Count() >= expected.Length, "the refusals");
        Assert.Equal(expected, Refusals);
    }

    private void Take(Arrival arrival, Func<Arrival, Answer?>? answer)
    {
        _taken.Enqueue(arrival);
        if ((answer is null ? Answer.Stored.Plain : answer(arrival)) is { } answered)
        {
            arrival.Complete(answered);
        }
    }

    public async ValueTask DisposeAsync()
    {
        Inbox.Close();
        await _reading;
    }
}
