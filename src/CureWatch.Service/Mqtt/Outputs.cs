using CureWatch.Bays;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// Publishes how the shop stands: at once after a quiet quarter of a second, else no more often than that, and warnings without any delay.
/// Nothing is decided here, so it runs on the time of the machine.
/// </summary>
internal sealed class Outputs(Latest latest, IOutlet outlet, Troubles troubles, TimeProvider time, ILogger<Outputs> log) : IFollower, IDisposable
{
    private static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan Retry = TimeSpan.FromSeconds(1);

    /// <summary>However much there is to work out, that takes a fifth of a processor at most. Source (choice).</summary>
    private const int RestPerWork = 4;

    private readonly Shelf _warnings = new(outlet);
    private readonly Shelf _others = new(outlet);
    private readonly SemaphoreSlim _signal = new(0);
    private readonly Lock _lock = new();
    private bool _isUrgent;
    private bool _isForgotten;
    private long _publishedThrough = -1;
    private long _nextAt;

    /// <summary>The journal's entry up to which everything is published.</summary>
    public long PublishedThrough => Volatile.Read(ref _publishedThrough);

    public void Follow(Commit commit)
    {
        Signal(commit.Steps.Any(s => s.Happened.Any(e => e is ShopEvent.WarningRaised or ShopEvent.WarningCleared)));
    }

    /// <summary>Publishes everything again: the broker is another, or came back.</summary>
    public void Refresh()
    {
        lock (_lock)
        {
            _isForgotten = true;
        }

        _signal.Release();
    }

    /// <summary>Takes away a message that a broker kept from before, unless it is still true.</summary>
    public void Find(string topic)
    {
        (topic.Contains("/warnings/", StringComparison.Ordinal) ? _warnings : _others).Find(topic);
        _signal.Release();
    }

    /// <summary>Publishes until it is cancelled.</summary>
    public async Task RunAsync(CancellationToken cancelled)
    {
        bool isDirty = false;
        troubles.Changed += TellTroubles;
        while (!cancelled.IsCancellationRequested)
        {
            bool isSignalled = await _signal.WaitAsync(isDirty ? Left : Timeout.InfiniteTimeSpan, cancelled).ConfigureAwait(false);
            while (isSignalled && _signal.Wait(0, cancelled))
            {
                // One pass does for all that was signalled meanwhile.
            }

            isDirty |= isSignalled;
            try
            {
                isDirty = !await PublishAsync(cancelled).ConfigureAwait(false);
            }
#pragma warning disable CA1031 // whatever one document breaks, the others are published again
            catch (Exception e) when (e is not OperationCanceledException)
#pragma warning restore CA1031
            {
                Log.NotPublished(log, e);
                _nextAt = time.GetTimestamp() + Ticks(Retry);
                await Task.Delay(Retry, time, cancelled).ConfigureAwait(false);
            }
        }
    }

    /// <summary>Says that nothing more is published.</summary>
    public async Task SignOffAsync(CancellationToken cancelled)
    {
        if (latest.Register.Shop is { } shop)
        {
            await outlet.KeepAsync(new Topics(shop.Plan.Shop).Status, "offline"u8.ToArray(), cancelled).ConfigureAwait(false);
        }
    }

    public void Dispose()
    {
        troubles.Changed -= TellTroubles;
        _signal.Dispose();
    }

    private void TellTroubles() => Signal(isUrgent: true);

    private void Signal(bool isUrgent)
    {
        lock (_lock)
        {
            _isUrgent |= isUrgent;
        }

        _signal.Release();
    }

    private TimeSpan Left => TimeSpan.FromSeconds(Math.Max(0, (_nextAt - time.GetTimestamp()) / (double)time.TimestampFrequency));

    /// <returns>Whether all is published; false where it has to wait for quiet.</returns>
    private async Task<bool> PublishAsync(CancellationToken cancelled)
    {
        bool isUrgent;
        Register register = latest.Register;
        lock (_lock)
        {
            (isUrgent, _isUrgent) = (_isUrgent, false);
            if (_isForgotten)
            {
                _warnings.Forget();
                _others.Forget();
                _isForgotten = false;
            }
        }

        bool isDue = Left == TimeSpan.Zero;
        if (register.Shop is { } shop && (isUrgent || isDue))
        {
            await _warnings.ArrangeAsync(OutputDocuments.Warnings(shop, troubles.Standing), cancelled).ConfigureAwait(false);
        }

        if (!isDue)
        {
            return false;
        }

        long begun = time.GetTimestamp();
        if (register.Shop is { } whole)
        {
            await _others.ArrangeAsync(OutputDocuments.Others(whole), cancelled).ConfigureAwait(false);
        }

        long now = time.GetTimestamp();
        _nextAt = now + Math.Max(Ticks(Quiet), RestPerWork * (now - begun));
        Volatile.Write(ref _publishedThrough, register.Sequence);
        return true;
    }

    private long Ticks(TimeSpan span) => (long)(span.TotalSeconds * time.TimestampFrequency);
}
