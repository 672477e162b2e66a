using CureWatch.Service.Mqtt;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Mqtt;

public sealed class OutputLaneTests
{
    // Each start with an external broker begins so: three warnings, pages of stack trace, and nothing wrong.
    [Theory]
    [InlineData(true, 0)]
    [InlineData(false, 1)]
    public async Task What_CannotBePublished_IsToldOnce_UnlessTheBrokerIsNotThere(bool isBrokerAway, int told)
    {
        var time = new FakeTimeProvider();
        var log = new ToldLog<Outputs>();
        int tries = 0;
        using var ended = new CancellationTokenSource();
        using var lane = new OutputLane(time, PublishAsync, restPerWork: 0, restInCrowd: 0, log);
        Task running = lane.RunAsync(ended.Token);
        lane.Marks.AddAll(isForgotten: false);
        await Eventually.TrueAsync(
            () =>
            {
                time.Advance(TimeSpan.FromSeconds(1));
                return Volatile.Read(ref tries) > 3;
            },
            "it to be tried again");
        await ended.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
        Assert.Equal(told, log.Of(2409));

        Task PublishAsync(Marked marked, CancellationToken cancelled)
        {
            Interlocked.Increment(ref tries);
            throw isBrokerAway ? new BrokerAwayException() : new IOException("The broker did not take it.");
        }
    }

    // A service that is stopped while it starts does not first work out all that is retained.
    [Fact]
    public async Task Lane_ThatIsToldToEnd_WorksNothingOut()
    {
        int published = 0;
        using var ended = new CancellationTokenSource();
        using var lane = new OutputLane(new FakeTimeProvider(), PublishAsync, restPerWork: 0, restInCrowd: 0, new ToldLog<Outputs>());
        lane.Marks.AddAll(isForgotten: true);
        await ended.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => lane.RunAsync(ended.Token));
        Assert.Equal(0, published);

        Task PublishAsync(Marked marked, CancellationToken cancelled)
        {
            published++;
            return Task.CompletedTask;
        }
    }
}
