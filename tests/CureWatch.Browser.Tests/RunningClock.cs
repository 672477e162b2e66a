using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Browser.Tests;

/// <summary>Lets a shop's clock go at the pace of the browser's, which nobody can stop.</summary>
internal sealed class RunningClock : IAsyncDisposable
{
    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(100);

    private readonly PeriodicTimer _timer = new(Beat);
    private readonly Task _running;

    public RunningClock(FakeTimeProvider clock) => _running = RunAsync(clock);

    public async ValueTask DisposeAsync()
    {
        _timer.Dispose();
        await _running;
    }

    private async Task RunAsync(FakeTimeProvider clock)
    {
        while (await _timer.WaitForNextTickAsync())
        {
            clock.Advance(Beat);
        }
    }
}
