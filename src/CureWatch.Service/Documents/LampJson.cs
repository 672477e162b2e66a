using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>What lamps have earned a coat, as JSON, with the caution beside it. Writes into an object that is open.</summary>
internal static class LampJson
{
    public static void Write(Utf8JsonWriter json, CoatLamp lamp)
    {
        json.WriteStartArray("stages");
        foreach (Stage stage in lamp.Stages)
        {
            json.WriteStringValue(WireName<Stage>.Of(stage));
        }

        json.WriteEndArray();
        json.WriteRounded("creditedMinutes", lamp.CreditedMinutes);
        json.WriteRounded("referenceHours", lamp.ReferenceHours);
        json.WriteArray("refused", lamp.Refused, r =>
        {
            json.WriteString("reason", WireName<LampVerdict>.Of(r.Why));
            json.WriteRounded("minutes", r.Minutes);
        });
        json.WriteString("caution", Cautions.Lamp);
    }
}
