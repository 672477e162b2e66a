using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Service.Settings;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Service.Documents;

/// <summary>The parts of a job's JSON, the same in a replay, over HTTP and over MQTT. Each writes into an object that is open.</summary>
internal static class JobJson
{
    public static void WriteSurface(Utf8JsonWriter json, Surface surface, IEnumerable<CoatReport> coats)
    {
        json.WriteString("surface", surface.Id);
        json.WriteArray("coats", coats, c => WriteCoat(json, c));
    }

    private static void WriteCoat(Utf8JsonWriter json, CoatReport coat)
    {
        json.WriteNumber("layer", coat.Coat.Layer);
        json.WriteNumber("section", coat.Coat.Section);
        (string product, int revision) = coat.Coat.Surface.SheetOf(coat.Coat.Layer);
        json.WriteString("product", product);
        json.WriteNumber("revision", revision);
        json.WriteString("batch", coat.Coat.Batch);
        json.WriteInstant("appliedAt", coat.Coat.AppliedAt);
        json.WriteInstant("levelledAt", coat.Coat.LevelledAt);
        json.WriteInstant("endedAt", coat.Coat.EndedAt);
        json.WriteStartObject("referenceHours");
        json.WriteRounded("low", coat.ReferenceHours.Low);
        json.WriteRounded("likely", coat.ReferenceHours.Likely);
        json.WriteRounded("high", coat.ReferenceHours.High);
        json.WriteEndObject();
        json.WriteArray("windows", coat.Windows, w => WriteWindow(json, w));
        json.WriteArray("lamp", coat.Lamps, l => LampJson.Write(json, l));
        LearningJson.WriteBegunWith(json, coat.BegunWith);
    }

    private static void WriteWindow(Utf8JsonWriter json, Window window)
    {
        json.WriteString("stage", WireName<WindowStage>.Of(window.Stage));
        json.WriteBounds("opensAt", window.OpensAt);
        json.WriteBounds("closesAt", window.ClosesAt);
        json.WriteString("state", WireName<WindowState>.Of(window.State));
        json.WriteBoolean("judgeByEye", window.JudgeByEye);
        json.WriteString("extrapolated", ExtrapolationWords.Of(window.Beyond));
        json.WriteArray("because", window.Because, r => WriteReason(json, r));
        json.WriteBounds("ifMended", window.IfMended);
    }

    public static void WriteWarning(Utf8JsonWriter json, Warning warning)
    {
        Subject subject = warning.Subject;
        json.WriteString("kind", WireName<WarningKind>.Of(subject.Kind));
        json.WriteString("bay", subject.Bay);
        json.WriteString("probe", subject.Probe);
        json.WriteString("surface", warning.Surface);
        json.WriteWhole("layer", subject.Layer > 0 ? subject.Layer : null);
        json.WriteWhole("section", subject.Section > 0 ? subject.Section : null);
        json.WriteInstant("raisedAt", warning.RaisedAt);
        json.WriteInstant("clearedAt", warning.ClearedAt);
        json.WriteRounded("leadMinutes", warning.Lead?.TotalMinutes);
        json.WriteString("detail", warning.Detail);
        json.WriteBoolean("wakes", warning.Wakes);
        json.WriteString("caution", Cautions.Beside(warning.Subject));
    }

    public static void WriteRuling(Utf8JsonWriter json, Ruling ruling)
    {
        json.WriteString("verdict", ruling.IsReady ? "ready" : "hold");
        json.WriteBounds("readyAt", ruling.ReadyAt);
        json.WriteInstant("collectFrom", ruling.CollectFrom);
        json.WriteArray("holds", ruling.Holds, h => WriteHold(json, h));
        json.WriteArray("because", ruling.Because, r => WriteReason(json, r));
        json.WriteBounds("ifMended", ruling.IfMended);
        json.WriteArray("notes", ruling.Notes, n =>
        {
            json.WriteString("surface", n.Surface);
            json.WriteNumber("layer", n.Layer);
            json.WriteString("text", n.Text);
        });
    }

    private static void WriteReason(Utf8JsonWriter json, WindowReason reason)
    {
        json.WriteString("kind", WireName<WindowReasonKind>.Of(reason.Kind));
        json.WriteString("probe", reason.Probe);
        json.WriteInstant("from", reason.From);
        json.WriteInstant("to", reason.To);
        json.WriteString("text", reason.Text);
        json.WriteString("ends", reason.Ends);
    }

    public static void WriteHold(Utf8JsonWriter json, Hold hold)
    {
        json.WriteString("kind", WireName<HoldKind>.Of(hold.Kind));
        json.WriteString("surface", hold.Surface);
        json.WriteWhole("layer", hold.Layer);
        json.WriteWhole("section", hold.Section);
        json.WriteString("text", hold.Text);
    }

    public static void WriteTap(Utf8JsonWriter json, Tap tap)
    {
        json.WriteString("id", tap.Id);
        json.WriteInstant("at", tap.At);
        json.WriteInstant("reportedAt", tap.ReportedAt);
        json.WriteString("surface", tap.Surface);
        json.WriteString("did", WireName<Did>.Of(tap.Did));
        json.WriteWhole("layer", tap.Layer);
        json.WriteWhole("section", tap.Section);
        json.WriteString("corrects", tap.Corrects);
    }
}
