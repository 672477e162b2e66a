using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Words;

namespace CureWatch.Service.Settings;

/// <summary>The surfaces of a job, as a tap may name them, their layers and their sections.</summary>
/// <param name="Ids">Every id; one of a surface with a fault too, so that its taps are not faults as well.</param>
/// <param name="Surfaces">The surfaces that could be read.</param>
/// <remarks>
/// A tap without a surface may name what any of them has. One layer more than planned may be told, since a further one does happen and somebody must be
/// able to say so; more than that is a slip.
/// </remarks>
internal sealed record TappedSurfaces(IReadOnlyCollection<string> Ids, ImmutableArray<Surface> Surfaces)
{
    public static TappedSurfaces Of(ImmutableArray<Surface> surfaces) => new([.. surfaces.Select(s => s.Id)], surfaces);

    public string? SurfaceOf(JsonCursor place) => place.String(Ids.Contains, $"a surface of the job: {string.Join(", ", Ids)}");

    public int? LayerOf(JsonCursor place, string? surface)
    {
        int planned = Most(surface, s => s.Layers, SurfacesOfJob.MostLayers), most = Math.Min(planned + 1, SurfacesOfJob.MostLayers);
        return place.Integer(1, most, most > planned ? (Sentence)$"a layer of {Of(surface)}: 1 to {most}, one more than planned" : $"a layer of {Of(surface)}: 1 to {most}");
    }

    public int? SectionOf(JsonCursor place, string? surface)
    {
        int most = Most(surface, s => s.Sections, SurfacesOfJob.MostSections);
        return place.Integer(1, most, $"a section of {Of(surface)}: 1 to {most}");
    }

    private static Sentence Of(string? surface) => surface is null ? $"some surface" : Sentence.Named(surface);

    private int Most(string? surface, Func<Surface, int> of, int unknown) =>
        Surfaces.Where(s => surface is null || s.Id == surface).Select(of).DefaultIfEmpty(unknown).Max();
}
