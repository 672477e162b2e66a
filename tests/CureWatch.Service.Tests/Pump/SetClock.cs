namespace CureWatch.Service.Tests.Pump;

/// <summary>A clock that can be set beside the time that passes.</summary>
internal sealed class SetClock : TimeProvider
{
    private TimeSpan _passed;
    private TimeSpan _set;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public void Pass(TimeSpan time) => _passed += time;

    public void Set(TimeSpan by) => _set += by;

    public override DateTimeOffset GetUtcNow() => Journal.Entries.At + _passed + _set;

    public override long GetTimestamp() => _passed.Ticks;
}
