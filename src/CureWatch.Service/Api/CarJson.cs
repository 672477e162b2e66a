using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Service.Documents;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Api;

/// <summary>A job's documents over HTTP. Each writes into an object that is open.</summary>
internal static class CarJson
{
    public static void WriteBrief(Utf8JsonWriter json, Look look, JobState job)
    {
        JobReport? report = job.LeftAt is null ? look.ReportOf(job) : null;
        json.WriteString("job", job.Job.Id);
        json.WriteString("car", job.Job.Car);
        json.WriteTexts("bays", report is null ? [] : look.BaysOf(job));
        json.WriteInstant("promisedAt", job.Job.PromisedAt);
        json.WriteInstant("startedAt", look.Register.Jobs.GetValueOrDefault(job.Job.Id)?.StartedAt);
        json.WriteInstant("leftAt", job.LeftAt);
        json.WriteString("verdict", report is null ? null : report.Ruling.IsReady ? "ready" : "hold");
        json.WriteInstant("collectFrom", report?.Ruling.CollectFrom);
        json.WriteWhole("holds", report?.Ruling.Holds.Length);
    }

    public static void WriteHandover(Utf8JsonWriter json, JobReport report, JobMarks? marks)
    {
        json.WriteString("job", report.Job.Id);
        json.WriteInstant("at", report.At);
        JobJson.WriteRuling(json, report.Ruling);
        if (marks?.HandedOver is not { } left)
        {
            json.WriteNull("handedOver");
            return;
        }

        json.WriteStartObject("handedOver");
        json.WriteInstant("at", left.At);
        json.WriteString("by", left.By);
        json.WriteString("despite", left.Despite);
        json.WriteEndObject();
    }

    /// <summary>A tap with all its keys, as it was told.</summary>
    public static void WriteTap(Utf8JsonWriter json, Tap tap)
    {
        JobJson.WriteTap(json, tap);
        json.WriteInstant("startedAt", tap.StartedAt);
        json.WriteRounded("panelC", tap.PanelC);
        json.WriteString("found", tap.Found is { } found ? WireName<Found>.Of(found) : null);
        json.WriteString("how", tap.How is { } how ? WireName<How>.Of(how) : null);
        json.WriteString("toBay", tap.ToBay);
        json.WriteString("by", tap.By);
        json.WriteString("note", tap.Note);
        json.WriteInstant("promisedAt", tap.PromisedAt);
        json.WriteString("batch", tap.Batch);
    }
}
