using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>What lamps have earned a coat, as JSON, with the caution beside it. Writes into an object that is open.</summary>
internal static class LampJson
{
    /// <summary>Writes the surfaces that are still warm from a lamp.</summary>
    public static void WriteCoolDowns(Utf8JsonWriter json, JobReport report) => json.WriteArray("coolDowns", report.CoolDowns, c =>
    {
        json.WriteString("surface", c.Surface);
        json.WriteRounded("panelC", c.CoolDown.PanelC);
        json.WriteRounded("limitC", c.CoolDown.LimitC);
        json.WriteBoolean("isMeasured", c.CoolDown.IsMeasured);
        json.WriteInstant("coolFrom", c.CoolDown.CoolFrom);
    });

    public static void Write(Utf8JsonWriter json, CoatLamp lamp)
    {
        json.WriteTexts("stages", lamp.Stages.Select(WireName<Stage>.Of));
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
