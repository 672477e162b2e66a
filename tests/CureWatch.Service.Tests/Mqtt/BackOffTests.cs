using System.Net;
using System.Net.Sockets;
using CureWatch.Service.Mqtt;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Mqtt;

public class BackOffTests
{
    [Theory]
    [InlineData(0, 375, 500)]
    [InlineData(1, 750, 1_000)]
    [InlineData(5, 12_000, 16_000)]
    [InlineData(6, 22_500, 30_000)]
    [InlineData(1_000_000, 22_500, 30_000)]
    public void Wait_IsTwiceAsLongEachTime_AndNeverQuiteTheSame(int failures, double leastMilliseconds, double mostMilliseconds)
    {
        Assert.Equal(leastMilliseconds, BackOff.After(failures, 0).TotalMilliseconds);
        Assert.Equal(mostMilliseconds, BackOff.After(failures, 1).TotalMilliseconds);
    }

    [Fact]
    public async Task Link_WithABrokerThatHangsUp_WaitsLongerEachTime()
    {
        using var broker = new TcpListener(IPAddress.Loopback, 0);
        broker.Start();
        int attempts = 0;
        using var stopping = new CancellationTokenSource();
        Task hangingUp = HangUpAsync();
        async Task HangUpAsync()
        {
            while (!stopping.IsCancellationRequested)
            {
                using Socket _ = await broker.AcceptSocketAsync(stopping.Token);
                Interlocked.Increment(ref attempts);
            }
        }

        var time = new FakeTimeProvider();
        await using (LinkRig rig = LinkRig.Begin(LinkRig.At(((IPEndPoint)broker.LocalEndpoint).Port), time: time))
        {
            await Eventually.TrueAsync(() => Volatile.Read(ref attempts) == 1, "the first attempt");
            for (int failures = 0; failures < 5; failures++)
            {
                DateTimeOffset failed = time.GetUtcNow();
                int before = failures + 1;
                await Eventually.TrueAsync(
                    () =>
                    {
                        if (Volatile.Read(ref attempts) == before)
                        {
                            time.Advance(TimeSpan.FromMilliseconds(10));
                        }

                        return Volatile.Read(ref attempts) > before;
                    },
                    $"attempt {before + 1}");
                Assert.True(time.GetUtcNow() - failed >= BackOff.After(failures, 0), $"attempt {before + 1} came after {time.GetUtcNow() - failed}");
            }
        }

        await stopping.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => hangingUp);
    }
}
