namespace CureWatch.Service.Commands;

/// <summary>Gives back the memory that the start took, once the service mostly waits.</summary>
internal sealed class StartGivenBack(TimeProvider time) : BackgroundService
{
    /// <summary>By then what is retained is published, and devices have come back. Source (choice).</summary>
    private static readonly TimeSpan After = TimeSpan.FromSeconds(30);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Delay(After, time, stoppingToken).ConfigureAwait(false);
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive);
    }
}
