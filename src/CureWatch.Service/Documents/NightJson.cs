using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Reports;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Documents;

/// <summary>The lock-up summary and the morning brief, the same over HTTP and over MQTT. Each part writes into an object that is open.</summary>
internal static class NightJson
{
    /// <summary>The lock-up summary of a shop: what each bay's comes to.</summary>
    public static void WriteTonight(Utf8JsonWriter json, IReadOnlyCollection<TonightReport> bays)
    {
        json.WriteString("text", string.Join(' ', bays.Where(b => b.Verdict != TonightVerdict.NothingOpen).Select(b => b.Text.ToString()).DefaultIfEmpty("Tonight: nothing has to stay dry.")));
        json.WriteArray("bays", bays, b => WriteTonight(json, b));
    }

    /// <summary>The lock-up summary of a bay.</summary>
    public static void WriteTonight(Utf8JsonWriter json, TonightReport report)
    {
        BayAhead? ahead = report.Ahead;
        json.WriteString("bay", report.Bay);
        json.WriteString("verdict", WireName<TonightVerdict>.Of(report.Verdict));
        json.WriteString("text", report.Text);
        json.WriteString("onCall", report.OnCall);
        json.WriteString("doors", report.Doors);
        json.WriteTexts("cars", report.Cars);
        json.WriteInstant("foreseenAt", ahead?.At);
        json.WriteInstant("until", ahead?.Until);
        json.WriteString("basis", ahead is null ? null : ahead.IsForecast ? "its-days" : "usual-night");
        json.WriteRounded("wetChance", report.WetChance);
        json.WriteRounded("leastSpreadK", ahead?.Night.LeastSpreadK);
        json.WriteInstant("leastSpreadAt", ahead?.Night.LeastSpreadAt);
        json.WriteRounded("coldestC", ahead?.Night.ColdestC);
        json.WriteInstant("coldestAt", ahead?.Night.ColdestAt);
        json.WriteArray("risks", ahead?.Risks ?? [], r => WriteRisk(json, r));
        json.WriteTexts("cautions", Cautions.Beside(ahead));
    }

    /// <summary>The morning brief of a shop: each bay's.</summary>
    public static void WriteMorning(Utf8JsonWriter json, IReadOnlyCollection<MorningReport> bays)
    {
        json.WriteString("text", string.Join(' ', bays.Select(b => $"{b.Bay}: {b.Text}")));
        json.WriteArray("bays", bays, b => WriteMorning(json, b));
    }

    /// <summary>The morning brief of a bay.</summary>
    public static void WriteMorning(Utf8JsonWriter json, MorningReport report)
    {
        json.WriteString("bay", report.Bay);
        json.WriteString("text", report.Text);
        json.WriteString("doors", report.Doors);
        json.WriteInstant("from", report.From);
        json.WriteRounded("coldestC", report.Coldest?.Temperature.Degrees);
        json.WriteInstant("coldestAt", report.Coldest?.At);
        json.WriteArray("water", report.Water, WriteSpell);
        json.WriteArray("unheard", report.Unheard, WriteSpell);
        json.WriteArray("warnings", report.Happened, w =>
        {
            json.WriteString("kind", WireName<WarningKind>.Of(w.Subject.Kind));
            json.WriteString("job", w.Subject.Job);
            json.WriteString("surface", w.Surface);
            json.WriteInstant("raisedAt", w.RaisedAt);
            json.WriteInstant("clearedAt", w.ClearedAt);
            json.WriteString("detail", w.Detail);
        });
        json.WriteArray("lookFirst", report.LookFirst, h =>
        {
            json.WriteString("job", h.Job);
            json.WriteString("car", h.Car);
            JobJson.WriteHold(json, h.Hold);
        });

        void WriteSpell(Spell spell)
        {
            json.WriteInstant("from", spell.From);
            json.WriteInstant("to", spell.To);
        }
    }

    private static void WriteRisk(Utf8JsonWriter json, Risk risk)
    {
        json.WriteString("kind", WireName<WarningKind>.Of(risk.Kind));
        json.WriteRounded("chance", risk.Chance);
        json.WriteInstant("from", risk.From);
        json.WriteRounded("lastsMinutes", risk.Lasts.TotalMinutes);
        json.WriteArray("actions", risk.Remedies, r =>
        {
            json.WriteString("text", r.Text);
            json.WriteRounded("chanceAfter", r.ChanceAfter);
        });
    }
}
