namespace CureWatch.Service.Demo;

/// <summary>How fast the demo may go: no more virtual time than so many minutes in a second, however much it is behind.</summary>
internal sealed class DemoPace
{
    /// <summary>The pace of a wall clock.</summary>
    public const double OfTheWall = 1.0 / 60;

    private long _freeAt = TimeProvider.System.GetTimestamp();

    /// <summary>Waits until a step may be taken.</summary>
    public async Task AllowAsync(TimeSpan step, double minutesPerSecond, CancellationToken cancelled)
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
