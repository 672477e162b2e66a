namespace CureWatch.Service.Tests.Mqtt;

/// <summary>The machine's own time, twenty times as fast.</summary>
internal sealed class HastyTime : TimeProvider
{
    private const int Haste = 20;

    public override long GetTimestamp() => System.GetTimestamp() * Haste;

    public override long TimestampFrequency => System.TimestampFrequency;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        System.CreateTimer(callback, state, Faster(dueTime), Faster(period));

    private static TimeSpan Faster(TimeSpan span) => span == Timeout.InfiniteTimeSpan ? span : span / Haste;
}
