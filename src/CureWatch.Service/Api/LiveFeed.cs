using System.Collections.Immutable;
using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using System.Threading.Channels;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>
/// Tells everyone who listens what changed. It looks twice a second whether there is a newer state, so that a hundred readings a second are
/// two tellings and the pump never waits for a page; each telling is written once for all listeners.
/// </summary>
internal sealed class LiveFeed(Latest latest, Lookout lookout, Troubles troubles, TimeProvider clock, ILogger<LiveFeed> logger) : BackgroundService
{
    /// <summary>More boards than any shop hangs up; a page that opens streams by the hundred is no board. Source (choice).</summary>
    private const int MostListeners = 200;

    /// <summary>A listener that is further behind is let go: it comes again and is told everything.</summary>
    private const int MostWaiting = 2_000;

    private const int LooksPerBeat = 6;

    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(500);
    private static readonly TimeSpan ComeAgainAfter = TimeSpan.FromSeconds(2);

    private ImmutableList<Channel<SseItem<string>>> _listeners = [];

    public bool IsFull => _listeners.Count >= MostListeners;

    /// <summary>Everything there is to tell now, then every change, until either side ends it.</summary>
    public async IAsyncEnumerable<SseItem<string>> Listen([EnumeratorCancellation] CancellationToken ended)
    {
        var listener = Channel.CreateBounded<SseItem<string>>(new BoundedChannelOptions(MostWaiting) { SingleReader = true });
        ImmutableInterlocked.Update(ref _listeners, all => all.Add(listener));
        try
        {
            yield return LiveChanges.ClockAt(clock.GetUtcNow()) with { ReconnectionInterval = ComeAgainAfter };
            yield return LiveChanges.TroublesOf(troubles.Standing);
            foreach (SseItem<string> item in lookout.Now() is { } look ? LiveChanges.Between(null, look) : [])
            {
                yield return item;
            }

            while (await NextAsync(listener.Reader, ended))
            {
                while (listener.Reader.TryRead(out SseItem<string> item))
                {
                    yield return item;
                }
            }
        }
        finally
        {
            ImmutableInterlocked.Update(ref _listeners, all => all.Remove(listener));
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // Coalescing and heartbeat decide nothing, so they run on the machine's own clock, also where the shop's is a stepped one.
        using var timer = new PeriodicTimer(Look, TimeProvider.System);
        Register told = latest.Register;
        ImmutableList<Trouble> toldTroubles = troubles.Standing;
        for (int look = 1; await timer.WaitForNextTickAsync(stoppingToken); look++)
        {
            if (troubles.Standing is var standing && !ReferenceEquals(standing, toldTroubles))
            {
                Tell([LiveChanges.TroublesOf(standing)]);
                toldTroubles = standing;
            }

            Register newest = latest.Register;
            if (!_listeners.IsEmpty && !ReferenceEquals(newest, told))
            {
                TellChanges(told, newest);
            }
            else if (look % LooksPerBeat == 0)
            {
                Tell([LiveChanges.ClockAt(clock.GetUtcNow())]);
            }

            told = newest;
        }
    }

    private static async ValueTask<bool> NextAsync(ChannelReader<SseItem<string>> reader, CancellationToken ended)
    {
        try
        {
            return await reader.WaitToReadAsync(ended);
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    private void TellChanges(Register told, Register newest)
    {
        try
        {
            if (lookout.Of(newest) is { } look)
            {
                Tell([.. LiveChanges.Between(told.Shop is null ? null : told, look)]);
            }
        }
        catch (Exception e)
        {
            Log.ChangesNotTold(logger, e);
        }
    }

    private void Tell(ImmutableArray<SseItem<string>> items)
    {
        foreach (Channel<SseItem<string>> listener in _listeners)
        {
            if (!items.All(listener.Writer.TryWrite))
            {
                listener.Writer.TryComplete();
            }
        }
    }
}
