using System.Text.Json;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Commands;

public sealed class FitCommandTests : IDisposable
{
    /// <summary>Made from E 50 kJ/mol, m 0.7 and 24 h, rounded to half hours.</summary>
    private const string Worked = """
        {"product":"paint-x","revision":3,"kind":"paint","stages":[
          {"stage":"flash","rows":[{"temperatureC":20,"humidityPct":50,"from":"00:01:00","to":"00:03:00"}]},
          {"stage":"keep-dry","rows":[
            {"temperatureC":10,"humidityPct":50,"at":"2.01:30:00"}, {"temperatureC":15,"humidityPct":50,"at":"1.10:30:00"},
            {"temperatureC":20,"humidityPct":50,"at":"1.00:00:00"}, {"temperatureC":25,"humidityPct":50,"at":"17:00:00"},
            {"temperatureC":30,"humidityPct":50,"at":"12:00:00"},   {"temperatureC":20,"humidityPct":30,"at":"1.10:30:00"},
            {"temperatureC":20,"humidityPct":70,"at":"19:00:00"},   {"temperatureC":30,"humidityPct":70,"at":"09:30:00"}]},
          {"stage":"full-cure","rows":[{"temperatureC":20,"humidityPct":50,"from":"7.00:00:00","to":"14.00:00:00"}]}]}
        """;

    private readonly Written folder = new();

    public void Dispose() => folder.Dispose();

    /// <summary>Source of the figures: least squares by a separate program in Python, to the digits given.</summary>
    [Fact]
    public void Json_OfTheWorkedTable_HasTheSeparateProgramsFigures()
    {
        JsonElement stage = Stages(Worked)[1];

        Assert.Equal("keep-dry", stage.GetProperty("stage").GetString());
        Assert.Equal(23.97, stage.GetProperty("referenceHours").GetDouble(), 0.005);
        Assert.Equal(50.70, stage.GetProperty("activationEnergyKJmol").GetDouble(), 0.005);
        Assert.Equal(0.687, stage.GetProperty("humidityExponent").GetDouble(), 0.0005);
        JsonElement error = stage.GetProperty("stdError");
        Assert.Equal(0.036, error.GetProperty("lnReferenceHours").GetDouble(), 0.0005);
        Assert.Equal(3.87, error.GetProperty("activationEnergyKJmol").GetDouble(), 0.005);
        Assert.Equal(0.133, error.GetProperty("humidityExponent").GetDouble(), 0.0005);
        Assert.Equal(49.5, stage.GetProperty("rows")[0].GetProperty("sheetHours").GetDouble());
    }

    [Fact]
    public void Json_OfASheet_HasEveryStageWithTheKeysPeopleScriptAgainst()
    {
        JsonElement top = Json(Worked);
        Assert.Equal(["product", "revision", "stages"], Keys(top));
        Assert.Equal("paint-x", top.GetProperty("product").GetString());
        Assert.Equal(3, top.GetProperty("revision").GetInt32());

        JsonElement[] stages = [.. top.GetProperty("stages").EnumerateArray()];
        string[] law = ["activationEnergyKJmol", "humidityExponent", "stdError", "basis", "rows"];
        string[] row = ["temperatureC", "humidityPct", "sheetHours", "fittedHours"];
        Assert.Equal(["flash", "keep-dry", "full-cure"], stages.Select(s => s.GetProperty("stage").GetString()));
        Assert.Equal(["stage", "referenceHours", "toReferenceHours", .. law], Keys(stages[0]));
        Assert.Equal([.. row, "toSheetHours", "toFittedHours"], Keys(stages[0].GetProperty("rows")[0]));
        Assert.Equal(["stage", "referenceHours", .. law], Keys(stages[1]));
        Assert.Equal(row, Keys(stages[1].GetProperty("rows")[0]));
        Assert.Equal(["lnReferenceHours", "activationEnergyKJmol", "humidityExponent"], Keys(stages[1].GetProperty("stdError")));
    }

    [Fact]
    public void Json_OfFlash_HasBothMilestones()
    {
        JsonElement flash = Stages(Worked)[0];
        JsonElement row = flash.GetProperty("rows")[0];

        Assert.Equal(1 / 60.0, flash.GetProperty("referenceHours").GetDouble(), 1e-6);
        Assert.Equal(0.05, flash.GetProperty("toReferenceHours").GetDouble(), 1e-6);
        Assert.Equal(1 / 60.0, row.GetProperty("sheetHours").GetDouble(), 1e-6);
        Assert.Equal(0.05, row.GetProperty("toSheetHours").GetDouble(), 1e-6);
    }

    [Fact]
    public void Json_OfARange_HasTheTimeThatWasFitted() =>
        Assert.Equal(24 * Math.Sqrt(7 * 14), Stages(Worked)[2].GetProperty("rows")[0].GetProperty("sheetHours").GetDouble(), 1e-3);

    [Fact]
    public void Words_OfASheet_SayWhatRestsOnExperienceAlone()
    {
        Invocation run = Invocation.Of("fit", "--product", folder.File("x.json", Worked));
        string[] stages = run.Output.Split($"{Environment.NewLine}{Environment.NewLine}");

        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Contains("for 20 °C and 50 %", stages[0], StringComparison.Ordinal);
        Assert.StartsWith("flash: 1.0 min to 3.0 min, ± 10 %", stages[1], StringComparison.Ordinal);
        Assert.Equal(2, stages[1].Split("general experience").Length - 1);
        Assert.StartsWith("keep-dry: 24.0 h, ± 4 %", stages[2], StringComparison.Ordinal);
        Assert.Contains("50.7 ± 3.9 kJ/mol", stages[2], StringComparison.Ordinal);
        Assert.DoesNotContain("general experience", stages[2], StringComparison.Ordinal);
        Assert.StartsWith("full-cure: 9.9 d", stages[3], StringComparison.Ordinal);
    }

    [Fact]
    public void Words_OfAWaterborneFlash_SayThatMoistAirIsSlower()
    {
        string sheet = Worked.Replace("\"kind\":\"paint\"", "\"kind\":\"paint\",\"carrier\":\"water\"", StringComparison.Ordinal);
        string flash = Invocation.Of("fit", "--product", folder.File("x.json", sheet)).Output.Split("keep-dry:")[0];

        Assert.Contains("half the humidity: 1.50 times as fast (waterborne", flash, StringComparison.Ordinal);
        Assert.DoesNotContain("about humidity", flash, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--json")]
    [InlineData(null)]
    public void Sheet_WithTwoFaults_IsRefusedInTwoLinesAndNothingElse(string? option)
    {
        string path = folder.File(
            "x.json", Worked.Replace("paint-x", "Paint X", StringComparison.Ordinal).Replace("\"paint\"", "\"boat\"", StringComparison.Ordinal));
        Invocation.Of(["fit", "--product", path, .. option is null ? Array.Empty<string>() : [option]])
            .AssertRefused($"{path}: /product", $"{path}: /kind");
    }

    [Fact]
    public void Sheet_ThatIsNotThere_IsRefused()
    {
        string path = Path.Combine(folder.Folder, "none.json");
        Invocation.Of("fit", "--product", path).AssertRefused($"{path}: file");
    }

    [Fact]
    public void Product_LeftOut_IsRefused() => Invocation.Of("fit").AssertRefused("--product");

    private static IEnumerable<string> Keys(JsonElement element) => element.EnumerateObject().Select(p => p.Name);

    private JsonElement Json(string sheet)
    {
        Invocation run = Invocation.Of("fit", "--product", folder.File("x.json", sheet), "--json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        return JsonDocument.Parse(run.Output).RootElement.Clone();
    }

    private JsonElement[] Stages(string sheet) => [.. Json(sheet).GetProperty("stages").EnumerateArray()];
}
