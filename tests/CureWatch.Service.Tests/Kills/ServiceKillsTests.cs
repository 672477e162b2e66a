using CureWatch.Benchmarks.Kills;
using CureWatch.Benchmarks.Power;

namespace CureWatch.Service.Tests.Kills;

/// <summary>The program itself under load, killed without a word; <c>kills</c> of the benchmarks does the same fifty times.</summary>
public sealed class ServiceKillsTests
{
    [Theory]
    [InlineData(false, 2, 3)]
    [InlineData(true, 1, 3)]
    public async Task Service_KilledUnderLoad_LosesNothingItAcknowledged_AndAppliesNothingTwice(bool isBrokerExternal, int kills, int starts)
    {
        using BrokerProcess? broker = isBrokerExternal ? await BrokerProcess.StartAsync() : null;
        Assert.Equal(isBrokerExternal, broker is not null);
        using var service = new ServiceKills(seed: 7, longestUnderLoad: TimeSpan.FromMilliseconds(500), broker?.Port);
        Findings findings = await service.RunAsync(kills, alsoDuringStart: false);
        Assert.Empty(findings.Faults);
        Assert.Equal(0, service.Damaged);
        Assert.Equal(starts, findings.Audit.Starts);
        Assert.All(
            new[] { "reading", "tap", "job" }, kind => Assert.Contains(findings.Ledger.Acknowledged, a => a.StartsWith(kind, StringComparison.Ordinal)));
        Assert.NotEmpty(findings.Heard.Raised);
        Assert.NotEqual(0, findings.Ledger.Again);
    }
}
