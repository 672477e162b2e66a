using CureWatch.Benchmarks.Kills;
using CureWatch.Benchmarks.Power;

namespace CureWatch.Service.Tests.Disk;

/// <summary>The whole service under load over MQTT and HTTP; <c>power-cuts</c> of the benchmarks does the same two hundred times, with both brokers.</summary>
public sealed class ServicePowerCutTests
{
    [Fact]
    public async Task Service_WhosePowerGoesUnderLoad_LosesNothingItAcknowledged_AndSetsItsAlarmAgain()
    {
        using var power = new PowerCuts(seed: 3, broker: null);
        Findings findings = await power.RunAsync(cuts: 3);
        Assert.Empty(findings.Faults);
        Assert.Empty(power.Damages);
        Assert.Equal(power.Starts, power.Armed);
        Assert.Contains(findings.Ledger.Acknowledged, a => a.StartsWith("reading", StringComparison.Ordinal));
    }
}
