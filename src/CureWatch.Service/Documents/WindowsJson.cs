using System.Text.Json;
using CureWatch.Bays;

namespace CureWatch.Service.Documents;

/// <summary>The windows of a car, as JSON: the same over HTTP and over MQTT. Writes into an object that is open.</summary>
internal static class WindowsJson
{
    /// <summary>The whole document.</summary>
    public static void Write(Utf8JsonWriter json, JobReport report)
    {
        json.WriteInstant("at", report.At);
        WriteBody(json, report);
    }

    /// <summary>All of it but when it was asked.</summary>
    public static void WriteBody(Utf8JsonWriter json, JobReport report)
    {
        json.WriteString("job", report.Job.Id);
        json.WriteString("assumes", report.Assumes);
        json.WriteArray("surfaces", report.Surfaces, s => JobJson.WriteSurface(json, s.Surface, s.Coats));
        NextJson.Write(json, report.Next);
        LampJson.WriteCoolDowns(json, report);
    }
}
