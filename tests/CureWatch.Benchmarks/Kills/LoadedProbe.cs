using System.Globalization;

namespace CureWatch.Benchmarks.Kills;

/// <summary>
/// A probe that keeps what was not acknowledged and sends it again on the next connection, with a few that were: what a real one does whose
/// own memory was cut off.
/// </summary>
/// <param name="bay">Its bay.</param>
/// <param name="id">Its id.</param>
/// <param name="every">How long it waits between bursts.</param>
/// <param name="clockAhead">How far its clock runs ahead of ours.</param>
/// <param name="ledger">Where its messages are entered.</param>
internal sealed class LoadedProbe(string bay, string id, TimeSpan every, TimeSpan clockAhead, Ledger ledger)
{
    private const int Burst = 5;
    private const int Forgotten = 3;

    /// <summary>A humid episode, and a panel below the dew point, every so often.</summary>
    private const double CycleSeconds = 40;

    private readonly LinkedList<Letter> _open = [];
    private readonly Queue<Letter> _newestAcknowledged = new();
    private DateTimeOffset _last;

    /// <summary>Sends until the program is gone.</summary>
    public async Task RunAsync(int port, CancellationToken cancelled)
    {
        using Connected broker = await Connected.ToAsync(port, $"{bay}-{id}", cancelled);
        await Task.WhenAll(_newestAcknowledged.ToArray().Select(l => broker.PublishAsync(l, ledger, cancelled)));
        await SendOpenAsync(broker, cancelled);
        while (!cancelled.IsCancellationRequested)
        {
            for (int i = 0; i < Burst; i++)
            {
                _ = _open.AddLast(Measure());
            }

            await SendOpenAsync(broker, cancelled);
            await Task.Delay(every, TimeProvider.System, cancelled);
        }
    }

    /// <summary>Sends what is left of the rounds before, and nothing new.</summary>
    public async Task SettleAsync(int port, CancellationToken cancelled)
    {
        using Connected broker = await Connected.ToAsync(port, $"{bay}-{id}", cancelled);
        await SendOpenAsync(broker, cancelled);
    }

    private async Task SendOpenAsync(Connected broker, CancellationToken cancelled)
    {
        (Letter Letter, Task Sent)[] sendings = [.. _open.Select(l => (l, broker.PublishAsync(l, ledger, cancelled)))];
        try
        {
            await Task.WhenAll(sendings.Select(s => s.Sent));
        }
        finally
        {
            foreach ((Letter letter, Task sent) in sendings.Where(s => s.Sent.IsCompletedSuccessfully))
            {
                _ = _open.Remove(letter);
                _newestAcknowledged.Enqueue(letter);
            }

            while (_newestAcknowledged.Count > Forgotten)
            {
                _ = _newestAcknowledged.Dequeue();
            }
        }
    }

    private Letter Measure()
    {
        DateTimeOffset now = TimeProvider.System.GetUtcNow() + clockAhead;
        long wanted = now.UtcTicks / TimeSpan.TicksPerMillisecond * TimeSpan.TicksPerMillisecond;
        _last = new DateTimeOffset(Math.Max(wanted, _last.UtcTicks + TimeSpan.TicksPerMillisecond), TimeSpan.Zero);
        double wave = Math.Sin(_last.UtcTicks / (double)TimeSpan.TicksPerSecond % CycleSeconds / CycleSeconds * 2 * Math.PI);
        string at = _last.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
        string payload = id == "panel"
            ? string.Create(CultureInfo.InvariantCulture, $$"""{"at":"{{at}}","temperatureC":{{16 + (4 * wave):0.00}}}""")
            : string.Create(
                CultureInfo.InvariantCulture,
                $$"""{"at":"{{at}}","temperatureC":{{21 + wave:0.00}},"humidityPct":{{60 - (20 * wave):0.0}}}""");
        return new Letter(Audit.KeyOf(bay, id, _last), $"{LoadedShop.Root}/{bay}/probe/{id}", payload);
    }
}
