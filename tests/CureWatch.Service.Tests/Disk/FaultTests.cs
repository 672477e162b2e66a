using CureWatch.Benchmarks.Power;

namespace CureWatch.Service.Tests.Disk;

/// <summary>Each call to the disk fails once, from the start through a day to the stop; and the disk is full for a while.</summary>
public sealed class FaultTests
{
    private static readonly string[] Faults = ["Input/output error", "No space left on device", "Permission denied", "Read-only file system"];

    /// <summary>Some forty of the calls, another fault each.</summary>
    [Fact]
    public Task Call_ThatFailsOnce_LosesNothing_AndIsNamedWhereItStopsTheStart() => FailAsync(first: 0, step: 17);

    /// <summary>Every one of them, which takes minutes: run with <c>-- xUnit.Explicit=on</c>.</summary>
    [Theory(Explicit = true)]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public Task EveryCall_ThatFailsOnce_LosesNothing(int fault) => FailAsync(fault, step: 1);

    private static async Task FailAsync(int first, int step)
    {
        for (int call = 0; ; call += step)
        {
            string fault = Faults[(first + (step > 1 ? call : 0)) % Faults.Length];
            var disk = new FaultyDisk(new PowerCutDisk(seed: 1));
            using var shop = new PoweredShop(seed: 1, disk);
            disk.Fail(call, () => fault == "Permission denied" ? new UnauthorizedAccessException(fault) : new IOException(fault));
            if (await shop.DayAsync(rounds: 6) is { } refusal)
            {
                Assert.Contains(fault, refusal, StringComparison.Ordinal);
                Assert.DoesNotContain('\n', refusal);
            }

            bool hasFailed = disk.HasFailed;
            disk.Heal();
            Assert.Equal([], (await shop.SettleAsync()).Select(f => $"call {call}, {fault}: {f}"));
            if (!hasFailed)
            {
                Assert.InRange(call, 200, 2_000);
                return;
            }
        }
    }
}
