using System.Text.Json;
using CureWatch.Products;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>A fitted sheet as the JSON object that people script against.</summary>
internal static class FitJson
{
    public const double JoulesPerKilojoule = 1000;

    public static void Write(Utf8JsonWriter json, SheetFit fit)
    {
        json.WriteStartObject();
        json.WriteString("product", fit.Sheet.Product);
        json.WriteNumber("revision", fit.Sheet.Revision);
        json.WriteStartArray("stages");
        foreach (StageFit stage in fit.Stages)
        {
            Write(json, stage);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, StageFit stage)
    {
        json.WriteStartObject();
        json.WriteString("stage", WireName<Stage>.Of(stage.Stage));
        json.WriteSignificant("referenceHours", stage.ReferenceHours);
        if (stage.ToReferenceHours is { } toHours)
        {
            json.WriteSignificant("toReferenceHours", toHours);
        }

        json.WriteSignificant("activationEnergyKJmol", stage.Law.ActivationEnergyJmol / JoulesPerKilojoule);
        json.WriteSignificant("humidityExponent", stage.Law.HumidityExponent);
        json.WriteStartObject("stdError");
        json.WriteSignificant("lnReferenceHours", stage.Covariance.StdErrorLnReferenceHours);
        json.WriteSignificant("activationEnergyKJmol", stage.Covariance.StdErrorActivationEnergyKJmol);
        json.WriteSignificant("humidityExponent", stage.Covariance.StdErrorHumidityExponent);
        json.WriteEndObject();
        json.WriteStartObject("basis");
        FitBasisJson.WriteKeys(json, FitBasis.Of(stage));
        json.WriteEndObject();
        json.WriteStartArray("rows");
        for (int row = 0; row < stage.Rows.Length; row++)
        {
            Write(json, stage.Rows[row], stage.To?.Rows[row]);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, FittedRow row, FittedRow? to)
    {
        json.WriteStartObject();
        json.WriteSignificant("temperatureC", row.Row.Temperature.Degrees);
        json.WriteSignificant("humidityPct", row.Row.Humidity.Percent);
        json.WriteSignificant("sheetHours", row.SheetHours);
        json.WriteSignificant("fittedHours", row.FittedHours);
        if (to is not null)
        {
            json.WriteSignificant("toSheetHours", to.SheetHours);
            json.WriteSignificant("toFittedHours", to.FittedHours);
        }

        json.WriteEndObject();
    }
}
