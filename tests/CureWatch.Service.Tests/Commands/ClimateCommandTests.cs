using System.Text.Json;

namespace CureWatch.Service.Tests.Commands;

public class ClimateCommandTests
{
    private static readonly string[] Keys =
    [
        "airC", "humidityPct", "dewPointC", "frostPointC", "condensationC", "vapourPressurePa", "absoluteHumidityGm3", "mixingRatioGkg",
        "wetBulbC", "panelC", "spreadK", "panelHumidityPct", "verdict",
        "spreadUncertaintyK", "condensationChance",
    ];

    // IAPWS-95 by python3-iapws 1.5.2: 20 °C / 50 % -> 9.273 °C, 1169.66 Pa, 8.645 g/m³; wet bulb by psychrolib 1.1.1.
    [Fact]
    public void Json_IsOneDocumentWithExactlyTheKeysPeopleScriptAgainst()
    {
        Invocation run = Invocation.Of("climate --air 20 --humidity 50 --panel 22.5 --json");
        Assert.Equal(0, run.ExitCode);
        Assert.Empty(run.Error);
        Assert.EndsWith("}\n", run.Output, StringComparison.Ordinal);
        JsonElement json = JsonDocument.Parse(run.Output).RootElement;
        Assert.Equal(Keys, json.EnumerateObject().Select(p => p.Name));
        Assert.Equal(9.273, json.GetProperty("dewPointC").GetDouble(), 0.003);
        Assert.Equal(JsonValueKind.Null, json.GetProperty("frostPointC").ValueKind);
        Assert.Equal(json.GetProperty("dewPointC").GetDouble(), json.GetProperty("condensationC").GetDouble());
        Assert.Equal(1169.66, json.GetProperty("vapourPressurePa").GetDouble(), 0.35);
        Assert.Equal(8.645, json.GetProperty("absoluteHumidityGm3").GetDouble(), 0.003);
        Assert.Equal(13.783, json.GetProperty("wetBulbC").GetDouble(), 0.0025);
        Assert.Equal(22.5 - 9.273, json.GetProperty("spreadK").GetDouble(), 0.003);
        Assert.Equal("dry", json.GetProperty("verdict").GetString());
    }

    [Fact]
    public void Json_WithoutAPanel_HasNullsInItsPlace()
    {
        JsonElement json = JsonDocument.Parse(Invocation.Of("climate --air 20 --humidity 50 --json").Output).RootElement;
        Assert.All(
            ["panelC", "spreadK", "panelHumidityPct", "verdict", "spreadUncertaintyK", "condensationChance"], key => Assert.Equal(JsonValueKind.Null, json.GetProperty(key).ValueKind));
    }

    [Fact]
    public void Pressure_MovesTheMixingRatioAndNotTheDewPoint()
    {
        JsonElement low = JsonDocument.Parse(Invocation.Of("climate --air 20 --humidity 50 --pressure 850 --json").Output).RootElement;
        JsonElement usual = JsonDocument.Parse(Invocation.Of("climate --air 20 --humidity 50 --json").Output).RootElement;
        Assert.Equal(usual.GetProperty("dewPointC").GetDouble(), low.GetProperty("dewPointC").GetDouble());
        Assert.True(low.GetProperty("mixingRatioGkg").GetDouble() > usual.GetProperty("mixingRatioGkg").GetDouble());
    }

    // Dew point of 20 °C / 50 %: 9.273 °C; of 20 °C / 20 %: -3.62 °C, frost point -3.21 °C (IAPWS-95 by python3-iapws 1.5.2).
    [Theory]
    [InlineData("50", "12.4", 0, "dry: panel 3.1 K above the dew point")]
    [InlineData("50", "10.3", 0, "marginal: panel 1.0 K above the dew point")]
    [InlineData("50", "9.2", 1, "wet: panel 0.1 K below the dew point")]
    [InlineData("20", "-3.4", 1, "wet: panel 0.2 K below the frost point")]
    public void Words_SayTheVerdict_AndTheExitFollowsIt(string humidity, string panel, int exitCode, string words)
    {
        Invocation run = Invocation.Of($"climate --air 20 --humidity {humidity} --panel {panel}");
        Assert.Equal(exitCode, run.ExitCode);
        Assert.Contains(words, run.Output, StringComparison.Ordinal);
    }

    // Limits whose root thirds are 0.3 K, 2 % RH and 0.5 K: u(S) 0.82 K at 20 °C / 50 % (worked out beforehand by a separate program). A panel
    // 1.645 of that above the dew point of 9.273 °C is wet in one of twenty cases (normal law).
    [Fact]
    public void Limits_OfTheProbes_GiveTheChanceThatThePanelIsWet()
    {
        const string Command = "climate --air 20 --humidity 50 --panel 10.62 --accuracy-air 0.5196 --accuracy-humidity 3.4641 --accuracy-panel 0.866";
        JsonElement json = JsonDocument.Parse(Invocation.Of($"{Command} --json").Output).RootElement;
        Assert.Equal(0.82, json.GetProperty("spreadUncertaintyK").GetDouble(), 0.006);
        Assert.Equal(0.05, json.GetProperty("condensationChance").GetDouble(), 0.002);
        Assert.Contains("1 in 20 that the panel is wet", Invocation.Of(Command).Output, StringComparison.Ordinal);
        Assert.Equal(2, Invocation.Of("climate --air 20 --humidity 50 --accuracy-air -1").ExitCode);
    }

    [Fact]
    public void WetPanel_WithJson_StillWritesItsDocument()
    {
        Invocation run = Invocation.Of("climate --air 20 --humidity 50 --panel 5 --json");
        Assert.Equal(1, run.ExitCode);
        Assert.Equal("wet", JsonDocument.Parse(run.Output).RootElement.GetProperty("verdict").GetString());
    }

    [Fact]
    public void Humidity_UnderOnePercent_IsAnsweredAndTold()
    {
        Invocation run = Invocation.Of("climate --air 20 --humidity 0.3 --json");
        Assert.Equal(0, run.ExitCode);
        Assert.Equal(1, JsonDocument.Parse(run.Output).RootElement.GetProperty("humidityPct").GetDouble());
        Assert.Single(run.Faults);
    }
}
