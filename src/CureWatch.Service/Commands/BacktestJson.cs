using System.Text.Json;
using CureWatch.Forecasting;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Commands;

/// <summary>A backtest as people script against it.</summary>
internal static class BacktestJson
{
    public static void Write(Utf8JsonWriter json, string bay, PastAir air, Backtest backtest)
    {
        json.WriteStartObject();
        json.WriteString("bay", bay);
        json.WriteString("probe", air.Probe);
        json.WriteNumber("issued", backtest.Issued);
        json.WriteArray("leads", backtest.Leads, lead =>
        {
            json.WriteNumber("hours", lead.Hours);
            Write(json, "temperature", lead.Temperature);
            Write(json, "dewPoint", lead.DewPoint);
        });
        TallyJson.Write(json, air.Readings);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, Score? score)
    {
        json.WriteStartObject(name);
        json.WriteRounded("rmse", score?.RmseK);
        json.WriteRounded("persistenceRmse", score?.PersistenceRmseK);
        json.WriteRounded("coverage80", score?.Coverage80);
        json.WriteEndObject();
    }
}
