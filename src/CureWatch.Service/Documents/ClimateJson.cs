using System.Diagnostics;
using System.Text.Json;
using CureWatch.Psychrometrics;

namespace CureWatch.Service.Documents;

/// <summary>A climate as the JSON object that people script against.</summary>
internal static class ClimateJson
{
    public static void Write(Utf8JsonWriter json, BayClimate climate, Verdict? verdict, SpreadDoubt? doubt)
    {
        json.WriteStartObject();
        WriteKeys(json, climate, verdict, doubt);
        json.WriteEndObject();
    }

    /// <summary>Writes the keys into an object that is open.</summary>
    public static void WriteKeys(Utf8JsonWriter json, BayClimate climate, Verdict? verdict, SpreadDoubt? doubt)
    {
        json.WriteRounded("airC", climate.Air.Degrees);
        json.WriteRounded("humidityPct", climate.Humidity.Percent);
        json.WriteRounded("dewPointC", climate.DewPoint.Degrees);
        json.WriteRounded("frostPointC", climate.FrostPoint?.Degrees);
        json.WriteRounded("condensationC", climate.Condensation.Degrees);
        json.WriteRounded("vapourPressurePa", climate.VapourPressurePa);
        json.WriteRounded("absoluteHumidityGm3", climate.AbsoluteHumidityGramsPerCubicMetre);
        json.WriteRounded("mixingRatioGkg", climate.MixingRatioGramsPerKilogram);
        json.WriteRounded("wetBulbC", climate.WetBulb.Degrees);
        json.WriteRounded("panelC", climate.Panel?.Degrees);
        json.WriteRounded("spreadK", climate.SpreadKelvins);
        json.WriteRounded("panelHumidityPct", climate.PanelHumidityPercent);
        json.WriteString("verdict", Word(verdict));
        json.WriteRounded("spreadUncertaintyK", doubt?.StandardKelvins);
        json.WriteRounded("condensationChance", doubt?.CondensationChance);
    }

    private static string? Word(Verdict? verdict) => verdict switch
    {
        null => null,
        Verdict.Wet => "wet",
        Verdict.Marginal => "marginal",
        Verdict.Dry => "dry",
        _ => throw new UnreachableException($"{verdict}"),
    };
}
