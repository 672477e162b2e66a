using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Reports;

namespace CureWatch.Service.Documents;

/// <summary>What would follow from a hypothesis, as JSON. Writes into an object that is open.</summary>
internal static class WhatIfJson
{
    public static void Write(Utf8JsonWriter json, WhatIf whatIf)
    {
        JobReport report = whatIf.Report;
        json.WriteInstant("at", report.At);
        json.WriteString("job", report.Job.Id);
        json.WriteTexts("beyond", whatIf.Beyond);
        Write(json, whatIf.Air);
        json.WriteArray("surfaces", report.Surfaces, s => JobJson.WriteSurface(json, s.Surface, s.Coats));
        json.WriteArray("planned", whatIf.Planned, c => PromiseJson.WriteCoat(json, c));
        json.WriteStartObject("handover");
        JobJson.WriteRuling(json, report.Ruling);
        json.WriteEndObject();
        PromiseReport promise = report.Promise!;
        json.WriteInstant("promisedAt", promise.Outlook.PromisedAt);
        PromiseJson.WriteChance(json, "chance", promise.Outlook.Chance);
        PromiseJson.WriteChance(json, "chanceOnceLifted", promise.Outlook.ChanceOnceLifted);
        json.WriteBounds("readyAt", promise.Outlook.ReadyAt);
        json.WriteInstant("collectFrom", promise.Outlook.CollectFrom);
        json.WriteTexts("cautions", Cautions.Beside(whatIf.Hypothesis));
    }

    private static void Write(Utf8JsonWriter json, AirIf? air)
    {
        if (air is null)
        {
            json.WriteNull("air");
            return;
        }

        json.WriteStartObject("air");
        json.WriteString("bay", air.Bay);
        json.WriteRounded("airC", air.AirC);
        json.WriteRounded("humidityPct", air.HumidityPct);
        json.WriteString("surface", air.Surface);
        json.WriteRounded("pace", air.Pace);
        json.WriteString("text", air.Text);
        json.WriteEndObject();
    }
}
