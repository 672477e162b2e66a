using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Service.Settings;
using CureWatch.TimeWindows;

namespace CureWatch.Service.Documents;

/// <summary>Whether somebody can start, as JSON: the same on the command line, over HTTP and over MQTT. Writes into an object that is open.</summary>
internal static class StartJson
{
    /// <summary>The whole document.</summary>
    public static void Write(Utf8JsonWriter json, StartReport report)
    {
        json.WriteInstant("at", report.Decision.Day.Now);
        WriteBody(json, report);
    }

    /// <summary>All of it but when it was asked.</summary>
    public static void WriteBody(Utf8JsonWriter json, StartReport report)
    {
        StartDecision decision = report.Decision;
        json.WriteString("job", report.Job);
        json.WriteString("bay", report.Bay);
        json.WriteString("verdict", WireName<StartVerdict>.Of(decision.Verdict));
        json.WriteBounds("from", decision.From);
        json.WriteString("first", decision.First?.Evidence.Surface.Id);
        json.WriteString("text", decision.Text);
        json.WriteInstant("doneAt", Minute(decision.Plan?.DoneAt));
        json.WriteInstant("lockUpAt", decision.Day.Today?.LocksUp);
        json.WriteArray("reasons", decision.Reasons, r => WriteReason(json, r));
        json.WriteArray("surfaces", decision.Answers, a => WriteAnswer(json, a));
        json.WriteTexts("assumed", decision.Assumed);
        json.WriteTexts("cautions", Cautions.BesideStart(decision));
    }

    private static void WriteAnswer(Utf8JsonWriter json, StartAnswer answer)
    {
        Surface surface = answer.Evidence.Surface;
        json.WriteString("surface", surface.Id);
        json.WriteWhole("layer", answer.Evidence.Next?.Layer);
        json.WriteString("product", answer.Evidence.Laws.Sheet.Product);
        json.WriteNumber("revision", answer.Evidence.Laws.Sheet.Revision);
        json.WriteString("verdict", WireName<StartVerdict>.Of(answer.Verdict));
        json.WriteBounds("from", answer.From);
        json.WriteArray("reasons", answer.Reasons, r => WriteReason(json, r));
        json.WriteArray("plan", answer.Plan?.Layers ?? [], l => WriteLayer(json, l));
        json.WriteBounds("dryAt", answer.DryAt is { } dry ? new TimeBounds(Minute(dry.Earliest), Minute(dry.Likely), Minute(dry.Latest)) : null);
    }

    public static void WriteReason(Utf8JsonWriter json, StartReason reason)
    {
        json.WriteString("kind", WireName<StartReasonKind>.Of(reason.Kind));
        json.WriteString("weight", WireName<StartWeight>.Of(reason.Weight));
        json.WriteString("surface", reason.Surface);
        json.WriteString("text", reason.Text);
        json.WriteString("help", reason.Help);
        json.WriteBounds("until", reason.Until);
    }

    private static void WriteLayer(Utf8JsonWriter json, LayerWork work)
    {
        json.WriteNumber("layer", work.Layer);
        json.WriteNumber("sections", work.Sections);
        json.WriteWhole("sectionsPerPass", work.IsTimed ? work.SectionsPerPass : null);
        json.WriteInstant("beginsAt", Minute(work.BeginsAt));
        json.WriteInstant("doneAt", Minute(work.DoneAt));
    }

    /// <summary>Nobody works to the second: what is planned from now on is told by the minute, so that it is other news once a minute at most.</summary>
    private static DateTimeOffset? Minute(DateTimeOffset? at) => at - TimeSpan.FromTicks((at?.UtcTicks ?? 0) % TimeSpan.TicksPerMinute);
}
