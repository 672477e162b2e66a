namespace CureWatch.Service.Pump;

/// <summary>After an outage: what comes is taken again, and that all is well is told once nothing has failed for a while.</summary>
/// <remarks>A few bytes fit on a disk that has no room for a batch: a trouble that came and went each second would be looked at by nobody.</remarks>
internal sealed class Convalescence
{
    /// <summary>How long nothing may fail. Source (choice): some tries of an outage that has only begun.</summary>
    public static readonly TimeSpan Lasts = TimeSpan.FromSeconds(10);

    private readonly Task _over;

    /// <param name="clock">The clock.</param>
    /// <param name="wake">Called when it has lasted.</param>
    public Convalescence(TimeProvider clock, Func<Task> wake)
    {
        _over = Task.Delay(Lasts, clock);
        _ = _over.ContinueWith(_ => wake(), TaskScheduler.Default);
    }

    /// <summary>Whether it has lasted.</summary>
    public bool IsOver => _over.IsCompleted;
}
