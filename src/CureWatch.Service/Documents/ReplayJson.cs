using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>A replayed day as the JSON document that people script against; without a job only what became of the readings.</summary>
internal static class ReplayJson
{
    public static void Write(Utf8JsonWriter json, DayReplay day)
    {
        json.WriteStartObject();
        if (day.Report is { } report)
        {
            Write(json, report, day.Readings);
        }
        else
        {
            WriteReadings(json, day.Readings);
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, JobReport report, ReadingTally readings)
    {
        json.WriteString("job", report.Job.Id);
        json.WriteInstant("until", report.At);
        json.WriteArray("surfaces", report.Surfaces, s => JobJson.WriteSurface(json, s.Surface, s.Coats));
        json.WriteArray("warnings", report.Warnings, w => JobJson.WriteWarning(json, w));
        json.WriteStartObject("handover");
        JobJson.WriteRuling(json, report.Ruling);
        json.WriteEndObject();
        WriteReadings(json, readings);
        json.WriteArray("taps", report.Told, t => JobJson.WriteTap(json, t));
    }

    private static void WriteReadings(Utf8JsonWriter json, ReadingTally tally)
    {
        json.WriteStartObject("readings");
        json.WriteNumber("accepted", tally.Accepted);
        json.WriteArray("rejected", tally.Rejected, r =>
        {
            json.WriteString("reason", WireName<Disbelief>.Of(r.Key));
            json.WriteNumber("count", r.Value);
        });
        json.WriteEndObject();
    }
}
