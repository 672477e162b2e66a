using CureWatch.Benchmarks.Kills;

namespace CureWatch.Service.Tests.Kills;

/// <summary>The program itself under load, killed without a word; <c>kills</c> of the benchmarks does the same fifty times.</summary>
public sealed class ServiceKillsTests
{
    [Fact]
    public async Task Service_KilledUnderLoad_LosesNothingItAcknowledged_AndAppliesNothingTwice()
    {
        using var service = new ServiceKills(seed: 7, longestUnderLoad: TimeSpan.FromMilliseconds(500));
        Findings findings = await service.RunAsync(kills: 3, alsoDuringStart: false);
        Assert.Empty(findings.Faults);
        Assert.Equal(0, service.Damaged);
        Assert.Equal(4, findings.Audit.Starts);
        Assert.All(
            new[] { "reading", "tap", "job" }, kind => Assert.Contains(findings.Ledger.Acknowledged, a => a.StartsWith(kind, StringComparison.Ordinal)));
        Assert.NotEmpty(findings.Heard.Raised);
        Assert.NotEqual(0, findings.Ledger.Again);
    }
}
