namespace CureWatch.Service.Pump;

/// <summary>
/// How much of the journal a start still has to read, for whoever would move the rest away. Whoever makes something that a start may begin
/// from says so here, once it would survive the power.
/// </summary>
internal sealed class StartNeeds
{
    private long _from = 1;

    /// <summary>The number of the oldest entry that a start reads; 1 for all.</summary>
    public long From
    {
        get => Volatile.Read(ref _from);
        set => Volatile.Write(ref _from, value);
    }
}
