using System.Text.Json;
using CureWatch.Bays;

namespace CureWatch.Service.Documents;

/// <summary>A replayed day as the JSON document that people script against; without a job only what became of the readings.</summary>
internal static class ReplayJson
{
    /// <param name="json">Where the document goes.</param>
    /// <param name="report">How the job stands; null without a job.</param>
    /// <param name="readings">What became of the readings.</param>
    public static void Write(Utf8JsonWriter json, JobReport? report, ReadingTally readings)
    {
        json.WriteStartObject();
        if (report is not null)
        {
            WriteJob(json, report);
        }

        TallyJson.Write(json, readings);
        if (report is not null)
        {
            json.WriteArray("taps", report.Told, t => JobJson.WriteTap(json, t));
            json.WriteArray("learning", report.Learning, l => LearningJson.Write(json, l));
        }

        json.WriteEndObject();
    }

    private static void WriteJob(Utf8JsonWriter json, JobReport report)
    {
        json.WriteString("job", report.Job.Id);
        json.WriteInstant("until", report.At);
        json.WriteString("assumes", report.Assumes);
        json.WriteArray("surfaces", report.Surfaces, s => JobJson.WriteSurface(json, s.Surface, s.Coats));
        json.WriteString("arrivalAssumes", report.ArrivalAssumes);
        json.WriteArray("arrival", report.Arrival, a => ArrivalJson.WriteSurface(json, a));
        LampJson.WriteCoolDowns(json, report);
        json.WriteArray("warnings", report.Warnings, w => JobJson.WriteWarning(json, w));
        json.WriteArray("tonight", report.Tonight, t => NightJson.WriteTonight(json, t));
        json.WriteStartObject("handover");
        JobJson.WriteRuling(json, report.Ruling);
        json.WriteEndObject();
        if (report.Promise is { } promise)
        {
            json.WriteStartObject("promise");
            PromiseJson.WriteBody(json, promise);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("promise");
        }

        NextJson.Write(json, report.Next);
    }
}
