namespace CureWatch.Service.Demo;

/// <summary>How fast the demo may go: no more virtual time than so many minutes in a second, however much it is behind.</summary>
internal sealed class DemoPace(double minutesPerSecond)
{
    private long _freeAt = TimeProvider.System.GetTimestamp();

    /// <summary>The pace of a wall clock.</summary>
    public static DemoPace OfTheWall => new(1.0 / 60);

    /// <summary>Waits until a step may be taken.</summary>
    public async Task AllowAsync(TimeSpan step, CancellationToken cancelled)
    {
        TimeProvider wall = TimeProvider.System;
        long now = wall.GetTimestamp();
        long ticks = (long)(step.TotalMinutes / minutesPerSecond * wall.TimestampFrequency);
        _freeAt = Math.Max(_freeAt, now) + ticks;
        TimeSpan wait = wall.GetElapsedTime(now, _freeAt);
        if (wait >= TimeSpan.FromMilliseconds(1))
        {
            await Task.Delay(wait, wall, cancelled).ConfigureAwait(false);
        }
    }
}
