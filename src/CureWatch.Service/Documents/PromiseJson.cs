using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>How a promise stands, as JSON: the same on the command line, over HTTP and over MQTT. Writes into an object that is open.</summary>
internal static class PromiseJson
{
    /// <summary>Chances are told by the percent: nobody acts on less, and a document is not news again for it.</summary>
    private const int Decimals = 2;

    /// <summary>The whole document.</summary>
    public static void Write(Utf8JsonWriter json, PromiseReport report)
    {
        json.WriteInstant("at", report.At);
        json.WriteString("job", report.Job);
        WriteBody(json, report);
    }

    /// <summary>All of it but when it was asked, and of which car.</summary>
    public static void WriteBody(Utf8JsonWriter json, PromiseReport report)
    {
        PromiseOutlook outlook = report.Outlook;
        json.WriteInstant("promisedAt", outlook.PromisedAt);
        json.WriteInstant("tell", report.Tell);
        json.WriteInstant("toldAt", report.Told?.At);
        json.WriteInstant("readyBy", outlook.ReadyBy);
        json.WriteString("standing", outlook.Standing is { } standing ? WireName<PromiseStanding>.Of(standing) : null);
        WriteChance(json, "chance", outlook.Chance);
        WriteChance(json, "chanceOnceLifted", outlook.ChanceOnceLifted);
        json.WriteBounds("beginsAt", report.BeginsAt);
        json.WriteBounds("readyAt", outlook.ReadyAt);
        json.WriteInstant("collectFrom", outlook.CollectFrom);
        WriteObject(json, "after", report.After, a =>
        {
            json.WriteString("job", a.Job);
            json.WriteBounds("leavesAt", a.LeavesAt);
        });
        WriteObject(json, "governing", outlook.Governing, g => WriteCoat(json, g));
        WriteObject(json, "move", report.Move, m => WriteMove(json, m));
        json.WriteString("text", report.Text);
        WriteObject(json, "advice", report.Advice.Value, a => WriteAdvice(json, a));
        WriteObject(json, "lastStart", report.LastStart.Value, l => WriteLastStart(json, l));
        json.WriteArray("forPeople", outlook.ForPeople, h => JobJson.WriteHold(json, h));
    }

    /// <summary>What a list of several needs of it.</summary>
    public static void WriteRanked(Utf8JsonWriter json, PromiseReport report)
    {
        json.WriteString("job", report.Job);
        json.WriteInstant("promisedAt", report.Outlook.PromisedAt);
        WriteChance(json, "chance", report.Outlook.Chance);
        json.WriteInstant("collectFrom", report.Outlook.CollectFrom);
        json.WriteString("text", report.Text);
    }

    public static void WriteCoat(Utf8JsonWriter json, AwaitedCoat coat)
    {
        json.WriteString("surface", coat.Surface.Id);
        json.WriteNumber("layer", coat.Layer);
        json.WriteWhole("section", coat.Section);
        json.WriteString("waits", WireName<Awaits>.Of(coat.Waits));
        json.WriteBounds("readyAt", coat.ReadyAt);
    }

    public static void WriteChance(Utf8JsonWriter json, string name, double? chance) =>
        json.WriteRounded(name, chance is { } known ? Math.Round(known, Decimals) : null);

    private static void WriteMove(Utf8JsonWriter json, PromiseMove move)
    {
        json.WriteInstant("tell", move.Tell);
        json.WriteInstant("was", move.Was);
        json.WriteInstant("since", move.At);
        WriteChance(json, "chance", move.Chance);
        json.WriteString("reason", move.Reason);
        json.WriteString("getsItBack", move.GetsItBack);
    }

    private static void WriteAdvice(Utf8JsonWriter json, PromiseAdvice advice)
    {
        WriteChance(json, "chance", advice.Target);
        json.WriteBoolean("needed", advice.IsNeeded);
        json.WriteString("text", advice.Text);
        json.WriteArray("ways", advice.Ways, w => WriteWay(json, w));
        json.WriteInstant("soonest", advice.Soonest?.Then.CollectFrom);
        json.WriteTexts("cautions", Cautions.BesideAdvice(advice));
    }

    private static void WriteWay(Utf8JsonWriter json, WayBack way)
    {
        json.WriteString("kind", WireName<WayKind>.Of(way.Kind));
        json.WriteString("with", way.With);
        json.WriteRounded("airC", way.AirC);
        json.WriteRounded("humidityPct", way.HumidityPct is { } percent ? Math.Round(percent, 1) : null);
        json.WriteArray("lamp", way.LampMinutes, l =>
        {
            json.WriteString("surface", l.Surface);
            json.WriteNumber("minutes", l.Minutes);
        });
        json.WriteInstant("until", way.Until);
        WriteChance(json, "chance", way.Then.Chance);
        json.WriteInstant("collectFrom", way.Then.CollectFrom);
        json.WriteBoolean("enough", way.IsEnough);
    }

    private static void WriteLastStart(Utf8JsonWriter json, LastStart start)
    {
        json.WriteInstant("by", start.By);
        json.WriteInstant("nextFrom", start.NextFrom);
        json.WriteString("limit", WireName<StartLimit>.Of(start.Limit));
        json.WriteString("text", start.Text);
    }

    private static void WriteObject<T>(Utf8JsonWriter json, string name, T? value, Action<T> write)
        where T : class
    {
        if (value is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        write(value);
        json.WriteEndObject();
    }
}
