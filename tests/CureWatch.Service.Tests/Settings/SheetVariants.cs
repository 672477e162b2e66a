namespace CureWatch.Service.Tests.Settings;

/// <summary>A product sheet that uses every key, and ways to break it: place, new value, where the fault is named.</summary>
internal static class SheetVariants
{
    public const string Whole = """
        {
          "$schema": "../schema/product.schema.json",
          "product": "paint-x", "revision": 2, "kind": "paint", "carrier": "solvent", "name": "Paint X", "source": "invented for the test",
          "reference": { "temperatureC": 23, "humidityPct": 60 },
          "limits": { "panelMinC": 10, "panelMaxC": 30, "humidityMinPct": 30, "humidityMaxPct": 75, "spreadMinK": 4, "heatMaxC": 70 },
          "stages": [
            { "stage": "flash", "drivenBy": "evaporation",
              "rows": [{ "temperatureC": 20, "humidityPct": 50, "from": "00:01:00", "to": "00:03:00" }] },
            { "stage": "level-by", "ifMissed": "note", "rows": [{ "temperatureC": 20, "humidityPct": 50, "at": "00:05:00" }] },
            { "stage": "recoat-from", "rows": [{ "temperatureC": 20, "humidityPct": 50, "at": "01:00:00" }] },
            { "stage": "recoat-by", "rows": [{ "temperatureC": 20, "humidityPct": 50, "at": "04:00:00" }] },
            { "stage": "keep-dry", "drivenBy": "cure", "rows": [
              { "temperatureC": 20, "humidityPct": 50, "from": "12:00:00", "to": "16:00:00" },
              { "temperatureC": 10, "humidityPct": 50, "at": "1.00:00:00" }] },
            { "stage": "no-wash", "rows": [{ "temperatureC": 20, "humidityPct": 50, "at": "5.00:00:00" }] },
            { "stage": "full-cure", "rows": [{ "temperatureC": 20, "humidityPct": 50, "at": "7.00:00:00" }] }
          ],
          "lamp": [{ "panelMinC": 55, "panelMaxC": 65, "referenceHoursPerMinute": 0.2,
            "notBefore": "01:00:00", "maxMinutes": 20, "stages": ["keep-dry", "no-wash"] }],
          "afterWetting": "continue",
          "cautions": ["Ventilate.", "Wear gloves."]
        }
        """;

    /// <summary>The same as its printed sheet says it where people think in °F: the spread is a difference, not a temperature.</summary>
    public static string InFahrenheit { get; } = Whole
        .Replace("\"reference\": { \"temperatureC\": 23", "\"reference\": { \"temperatureF\": 73.4", StringComparison.Ordinal)
        .Replace("\"temperatureC\": 20", "\"temperatureF\": 68", StringComparison.Ordinal)
        .Replace("\"temperatureC\": 10", "\"temperatureF\": 50", StringComparison.Ordinal)
        .Replace("\"panelMinC\": 10, \"panelMaxC\": 30", "\"panelMinF\": 50, \"panelMaxF\": 86", StringComparison.Ordinal)
        .Replace("\"spreadMinK\": 4, \"heatMaxC\": 70", "\"spreadMinF\": 7.2, \"heatMaxF\": 158", StringComparison.Ordinal)
        .Replace("\"panelMinC\": 55, \"panelMaxC\": 65", "\"panelMinF\": 131, \"panelMaxF\": 149", StringComparison.Ordinal);

    /// <summary>Only what is required.</summary>
    public const string Least = """
        {"product":"x","revision":1,"kind":"glass","stages":[
          {"stage":"keep-dry","rows":[{"temperatureC":20,"humidityPct":50,"at":"12:00:00"}]},
          {"stage":"level-by","rows":[{"temperatureC":20,"humidityPct":50,"at":"00:10:00"}]}]}
        """;

    /// <summary>Refused by the schema and by the reader.</summary>
    public static TheoryData<string, string?, string> ForBoth { get; } = new()
    {
        { "/product", null, "/product" },
        { "/product", "\"Paint X\"", "/product" },
        { "/product", "\"jobs\"", "/product" },
        { "/revision", null, "/revision" },
        { "/revision", "0", "/revision" },
        { "/revision", "1.5", "/revision" },
        { "/revision", "\"2\"", "/revision" },
        { "/kind", null, "/kind" },
        { "/kind", "\"boat\"", "/kind" },
        { "/carrier", "\"oil\"", "/carrier" },
        { "/name", "\"\"", "/name" },
        { "/name", "null", "/name" },
        { "/source", "\"two\\nlines\"", "/source" },
        { "/colour", "\"grey\"", "/colour" },
        { "/reference/pressureHpa", "1000", "/reference/pressureHpa" },
        { "/reference/humidityPct", "85.1", "/reference/humidityPct" },
        { "/reference/humidityPct", "4.9", "/reference/humidityPct" },
        { "/reference/temperatureC", "101", "/reference/temperatureC" },
        { "/limits/panelMinC", "\"10\"", "/limits/panelMinC" },
        { "/limits/spreadMinK", "-1", "/limits/spreadMinK" },
        { "/limits/spreadMinF", "7.2", "/limits/spreadMinF" },
        { "/limits/panelMinF", "50", "/limits/panelMinF" },
        { "/limits/heatMaxF", "158", "/limits/heatMaxF" },
        { "/reference/temperatureF", "73.4", "/reference/temperatureF" },
        { "/stages/0/rows/0/temperatureF", "68", "/stages/0/rows/0/temperatureF" },
        { "/lamp/0/panelMaxF", "149", "/lamp/0/panelMaxF" },
        { "/limits/humidityMinPct", "-1", "/limits/humidityMinPct" },
        { "/limits/heatMaxC", "201", "/limits/heatMaxC" },
        { "/limits/windMax", "1", "/limits/windMax" },
        { "/stages", null, "/stages" },
        { "/stages", "[]", "/stages" },
        { "/stages", "{}", "/stages" },
        { "/stages/0/stage", "\"tack-free\"", "/stages/0/stage" },
        { "/stages/0/stage", null, "/stages/0/stage" },
        { "/stages/0/drivenBy", "\"wind\"", "/stages/0/drivenBy" },
        { "/stages/0/rows", "[]", "/stages/0/rows" },
        { "/stages/0/rows/0/at", "\"00:02:00\"", "/stages/0/rows/0/at" },
        { "/stages/0/rows/0/to", null, "/stages/0/rows/0/to" },
        { "/stages/0/rows/0/from", null, "/stages/0/rows/0/from" },
        { "/stages/0/rows/0/humidityPct", "0", "/stages/0/rows/0/humidityPct" },
        { "/stages/0/rows/0/humidityPct", "100", "/stages/0/rows/0/humidityPct" },
        { "/stages/0/rows/0/temperatureC", null, "/stages/0/rows/0/temperatureC" },
        { "/stages/0/rows/0/temperatureC", "-31", "/stages/0/rows/0/temperatureC" },
        { "/stages/0/rows/0/wind", "1", "/stages/0/rows/0/wind" },
        { "/stages/1/rows/0/at", null, "/stages/1/rows/0/from" },
        { "/stages/1/rows/0/at", "300", "/stages/1/rows/0/at" },
        { "/stages/1/rows/0/at", "\"5 min\"", "/stages/1/rows/0/at" },
        { "/stages/1/rows/0/to", "\"00:06:00\"", "/stages/1/rows/0/at" },
        { "/stages/1/ifMissed", "\"ignore\"", "/stages/1/ifMissed" },
        { "/stages/2/ifMissed", "\"note\"", "/stages/2/ifMissed" },
        { "/lamp/0/stages", null, "/lamp/0/stages" },
        { "/lamp/0/stages", "[]", "/lamp/0/stages" },
        { "/lamp/0/stages/-", "\"keep-dry\"", "/lamp/0/stages/2" },
        { "/lamp/0/maxMinutes", "0", "/lamp/0/maxMinutes" },
        { "/lamp/0/notBefore", null, "/lamp/0/notBefore" },
        { "/lamp/0/referenceHoursPerMinute", "0", "/lamp/0/referenceHoursPerMinute" },
        { "/afterWetting", "\"forget\"", "/afterWetting" },
        { "/cautions/-", "\"\"", "/cautions/2" },
        { "/cautions", "\"Ventilate.\"", "/cautions" },
        { "/$schema", "7", "/$schema" },
    };

    /// <summary>Rules across places, which only the reader can check.</summary>
    public static TheoryData<string, string?, string> ForTheReader { get; } = new()
    {
        { "/limits/panelMaxC", "10", "/limits/panelMaxC" },
        { "/limits/humidityMaxPct", "29", "/limits/humidityMaxPct" },
        { "/limits/heatMaxC", "29", "/limits/heatMaxC" },
        { "/stages/0/rows/0/to", "\"00:00:59\"", "/stages/0/rows/0/to" },
        { "/stages/0/rows/0/from", "\"00:00:00\"", "/stages/0/rows/0/from" },
        { "/stages/1/rows/0/at", "\"00:00:59\"", "/stages/1/rows/0" },
        { "/stages/2/stage", "\"recoat-by\"", "/stages/3/stage" },
        { "/stages/3/rows/0/at", "\"01:00:00\"", "/stages/3/rows/0" },
        { "/stages/5/rows/0/at", "\"15:00:00\"", "/stages/5/rows/0" },
        { "/stages/6/rows/0/at", "\"4.00:00:00\"", "/stages/6/rows/0" },
        { "/stages/6/rows/0/at", "\"1001.00:00:00\"", "/stages/6/rows/0/at" },
        { "/lamp/0/panelMaxC", "71", "/lamp/0/panelMaxC" },
        { "/lamp/0/panelMaxC", "55", "/lamp/0/panelMaxC" },
    };
}
