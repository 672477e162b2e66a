using CureWatch.Readings;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// Of a backlog without times only the newest reading counts: when the others were measured nobody can tell.
/// </summary>
/// <remarks>
/// The first readings without a time that a probe sends on a new connection may be a backlog. They wait until the probe has been quiet for
/// a quarter of a second; then the newest goes on, and from there on every reading of that probe on that connection goes on at once. The
/// ones it overtook are counted as late, and acknowledged without waiting any longer.
/// </remarks>
internal sealed class CatchUp(Inbox inbox, TimeProvider time) : IAsyncDisposable
{
    /// <summary>Far shorter than any probe's interval, far longer than the gaps within a backlog. Source (choice).</summary>
    public static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(250);

    /// <summary>A probe that never falls quiet is heard after this long all the same. Source (choice).</summary>
    public static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(30);

    private readonly Dictionary<string, Wait> _waits = new(StringComparer.Ordinal);

    /// <summary>Passes a reading on, now or once its probe is quiet.</summary>
    public ValueTask PassAsync(Connection connection, string place, Arrival.Reading reading, CancellationToken cancelled)
    {
        if (reading.Entry.MeasuredAt is not null)
        {
            return inbox.PostAsync(reading, cancelled);
        }

        Arrival.Reading? overtaken;
        lock (_waits)
        {
            if (connection.CaughtUp.Contains(place))
            {
                return inbox.PostAsync(reading, cancelled);
            }

            if (!_waits.TryGetValue(place, out Wait? wait))
            {
                wait = new Wait(time.CreateTimer(_ => End(place), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan), time.GetTimestamp());
                _waits.Add(place, wait);
            }

            overtaken = wait.Newest;
            (wait.Newest, wait.Connection) = (reading, connection);
            TimeSpan left = LongestWait - time.GetElapsedTime(wait.Since);
            wait.Timer.Change(left < Quiet ? Max(left, TimeSpan.Zero) : Quiet, Timeout.InfiniteTimeSpan);
        }

        return overtaken is null ? ValueTask.CompletedTask : OvertakeAsync(place, overtaken, cancelled);
    }

    /// <summary>Ends every wait: what waited goes on.</summary>
    public ValueTask DisposeAsync()
    {
        string[] places;
        lock (_waits)
        {
            places = [.. _waits.Keys];
        }

        foreach (string place in places)
        {
            End(place);
        }

        return ValueTask.CompletedTask;
    }

    private async ValueTask OvertakeAsync(string place, Arrival.Reading overtaken, CancellationToken cancelled)
    {
        await inbox.PostAsync(new Arrival.Refusal(Disbelief.Late, place), cancelled).ConfigureAwait(false);
        overtaken.Complete(Answer.Stored.Plain);
    }

    private void End(string place)
    {
        Wait? ended;
        lock (_waits)
        {
            if (!_waits.Remove(place, out ended))
            {
                return;
            }

            ended.Connection!.CaughtUp.Add(place);
        }

        ended.Timer.Dispose();
        _ = inbox.PostAsync(ended.Newest!).AsTask();
    }

    private static TimeSpan Max(TimeSpan a, TimeSpan b) => a > b ? a : b;

    private sealed class Wait(ITimer timer, long since)
    {
        public ITimer Timer { get; } = timer;

        public long Since { get; } = since;

        public Arrival.Reading? Newest { get; set; }

        public Connection? Connection { get; set; }
    }
}
