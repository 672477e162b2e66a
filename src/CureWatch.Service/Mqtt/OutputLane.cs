namespace CureWatch.Service.Mqtt;

/// <summary>Publishes outputs of one kind as they are marked, beside those of other kinds that may take longer.</summary>
/// <param name="time">The time of the machine.</param>
/// <param name="publish">Publishes what was marked.</param>
/// <param name="restPerWork">How long it rests after as much work, so that however much there is to work out, it takes only that share of a processor.</param>
/// <param name="restInCrowd">The same where a crowd waits: what comes in has to be stored before it can be shown.</param>
/// <param name="log">Where it is told what could not be.</param>
internal sealed class OutputLane(TimeProvider time, Func<Marked, CancellationToken, Task> publish, int restPerWork, int restInCrowd, ILogger log) : IDisposable
{
    /// <summary>More than a shop has bays, or cars [1]. Source (choice).</summary>
    private const int Crowd = 1_000;

    private static readonly TimeSpan Retry = TimeSpan.FromSeconds(1);

    public Marks Marks { get; } = new(time);

    /// <summary>Publishes until it is cancelled.</summary>
    public async Task RunAsync(CancellationToken cancelled)
    {
        bool hasTold = false;
        while (true)
        {
            Marked marked = await Marks.TakeAsync(cancelled).ConfigureAwait(false);
            long begun = time.GetTimestamp();
            try
            {
                await publish(marked, cancelled).ConfigureAwait(false);
                hasTold = false;
                Marks.Done((marked.Keys.Count > Crowd ? restInCrowd : restPerWork) * time.GetElapsedTime(begun));
            }
#pragma warning disable CA1031 // whatever one document breaks, the others are published again
            catch (Exception e) when (e is not OperationCanceledException)
#pragma warning restore CA1031
            {
                if (!hasTold && e is not BrokerAwayException)
                {
                    Log.NotPublished(log, e); // once: it may last for hours
                    hasTold = true;
                }

                await Task.Delay(Retry, time, cancelled).ConfigureAwait(false);
                Marks.AddAll(marked.IsForgotten);
                Marks.Done(TimeSpan.Zero);
            }
        }
    }

    public void Dispose() => Marks.Dispose();
}
