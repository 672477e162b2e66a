using System.Text;
using System.Text.Json;
using CureWatch.Panels;
using CureWatch.Service.Documents;
using CureWatch.Service.Mqtt;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Documents;

/// <summary>A warning that tells somebody to heat, to light a lamp or to air carries what to take care of, wherever it is read.</summary>
public class WarningCautionTests
{
    // "Hold 18 °C, doors shut" went out without a word.
    [Theory]
    [InlineData(WarningKind.CondensingAhead, "with the doors shut, vapour gathers", "an extraction that runs")]
    [InlineData(WarningKind.PanelColdAhead, "no heater or lamp runs unattended", null)]
    [InlineData(WarningKind.PanelHotAhead, "an extraction that runs", null)]
    [InlineData(WarningKind.PromiseAtRisk, "a lamp burns skin", "an extraction that runs")]
    [InlineData(WarningKind.LevelDue, null, null)]
    public void Warning_CarriesItsCaution(WarningKind kind, string? says, string? saysToo)
    {
        bool isOfABay = kind is not (WarningKind.PromiseAtRisk or WarningKind.LevelDue);
        var subject = new Subject(kind) { Bay = isOfABay ? "bay-1" : null, Job = isOfABay ? null : "job-1", Air = isOfABay ? Place.Outside : null };
        var warning = new Warning(subject, null, DateTimeOffset.UnixEpoch, null, null);
        string? caution = JsonElement.Parse(Encoding.UTF8.GetString(OutputDocument.Of(_ => { }, json => WarningJson.Write(json, 3, warning)).Bytes))
            .GetProperty("caution").GetString();
        Assert.Equal(says is null, caution is null);
        Assert.Contains(says ?? string.Empty, caution ?? string.Empty, StringComparison.Ordinal);
        Assert.Contains(saysToo ?? string.Empty, caution ?? string.Empty, StringComparison.Ordinal);
    }
}
