using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>When a car that came in is dry enough, as JSON: the same over HTTP and in a replay. Writes into an object that is open.</summary>
internal static class ArrivalJson
{
    public static void Write(Utf8JsonWriter json, ArrivalReport report)
    {
        json.WriteString("job", report.Job);
        json.WriteInstant("at", report.At);
        json.WriteString("assumes", report.Assumes);
        json.WriteArray("surfaces", report.Surfaces, s => WriteSurface(json, s));
    }

    public static void WriteSurface(Utf8JsonWriter json, SurfaceArrival arrival)
    {
        json.WriteString("surface", arrival.Surface.Id);
        json.WriteString("material", WireName<Material>.Of(arrival.Surface.Material));
        json.WriteString("basis", WireName<ArrivalBasis>.Of(arrival.Basis));
        json.WriteRounded("startC", arrival.StartC);
        json.WriteRounded("nowC", arrival.NowC);
        json.WriteRounded("coldestC", arrival.ColdestC);
        json.WriteBounds("dryAt", arrival.DryAt);
        if (arrival.WasWet is { } wasWet)
        {
            json.WriteBoolean("wasWet", wasWet);
        }
        else
        {
            json.WriteNull("wasWet");
        }

        json.WriteInstant("wipedAt", arrival.WipedAt);
        json.WriteBoolean("needsWipe", arrival.NeedsWipe);
        json.WriteString("caution", Cautions.Beside(arrival));
    }
}
