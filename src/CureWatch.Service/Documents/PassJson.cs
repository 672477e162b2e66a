using System.Text.Json;
using CureWatch.Planning;
using CureWatch.Reports;

namespace CureWatch.Service.Documents;

/// <summary>The passes of a car as JSON. Writes into an object that is open.</summary>
internal static class PassJson
{
    public static void Write(Utf8JsonWriter json, PassReport report, IEnumerable<Words.Sentence> assumed, IEnumerable<string> cautions)
    {
        json.WriteString("job", report.Job);
        json.WriteInstant("at", report.At);
        json.WriteNumber("people", report.Pace.People);
        json.WriteString("text", PassWords.Of(report));
        json.WriteArray("surfaces", report.Surfaces, s => WriteSurface(json, s));
        json.WriteArray("passes", report.Passes, p => json.WriteArray("sections", p, s =>
        {
            json.WriteString("surface", s.Surface);
            json.WriteNumber("layer", s.Layer);
            json.WriteNumber("section", s.Section);
            json.WriteBoolean("judgeByEye", !s.IsTimed);
        }));
        json.WriteTexts("assumed", assumed);
        json.WriteTexts("cautions", cautions);
    }

    private static void WriteSurface(Utf8JsonWriter json, SurfacePass surface)
    {
        json.WriteString("surface", surface.Surface.Id);
        json.WriteNumber("layer", surface.Layer);
        json.WriteBoolean("hasToBeLevelled", surface.HasToBeLevelled);
        json.WriteString("flashFrom", surface.Flash?.From.ToString("c"));
        json.WriteString("flashTo", surface.Flash?.To.ToString("c"));
        json.WriteWhole("sections", surface.Plan switch
        {
            PassPlan.Workable pass => pass.Sections,
            PassPlan.Unworkable => 0,
            _ => null,
        });
        json.WriteBoolean("endless", surface.Plan is PassPlan.Endless || !surface.HasToBeLevelled);
        json.WriteString("worstWait", ((surface.Plan as PassPlan.Endless)?.WorstWait ?? (surface.Plan as PassPlan.Workable)?.WorstWait)?.ToString("c"));
    }
}
