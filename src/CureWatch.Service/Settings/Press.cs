using CureWatch.Planning;

namespace CureWatch.Service.Settings;

/// <summary>A press of the one button: whoever presses has done what was next.</summary>
/// <param name="Id">Makes a retry harmless: the id of the tap that comes of it.</param>
/// <param name="At">When it was done; null for now.</param>
/// <param name="StartedAt">The first wipe, of an application or a re-wet.</param>
/// <param name="By">Who reports.</param>
/// <param name="Surface">The surface they work on; null for whatever comes next on the car.</param>
/// <param name="Act">What they did, if they say it; where they do not, it is what is next.</param>
/// <param name="Layer">On which layer.</param>
/// <param name="Section">On which section.</param>
internal sealed record Press(
    string Id, DateTimeOffset? At, DateTimeOffset? StartedAt, string? By, string? Surface, ActKind? Act, int? Layer, int? Section)
{
    public static Press? Read(JsonCursor top, IReadOnlyCollection<string> surfaces)
    {
        _ = top.Keys(["id"], "at", "startedAt", "by", "surface", "act", "layer", "section");
        string? id = top["id"].Text(TapOfJob.LongestId);
        DateTimeOffset? at = top["at"].Instant(), startedAt = top["startedAt"].Instant();
        if (startedAt > at)
        {
            top["startedAt"].Refuse("at or before at");
        }

        var press = new Press(
            id ?? "",
            at,
            startedAt,
            top["by"].Text(TapOfJob.LongestBy),
            top["surface"].String(surfaces.Contains, $"a surface of the job: {string.Join(", ", surfaces)}"),
            top["act"].OneOf<ActKind>(),
            top["layer"].Integer(1, SurfacesOfJob.MostLayers),
            top["section"].Integer(1, SurfacesOfJob.MostSections));
        return id is null ? null : press;
    }
}
