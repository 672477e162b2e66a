using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Learning;

namespace CureWatch.Service.Settings;

/// <summary>What a job's coats were begun with, as <c>export</c> writes it beside the taps.</summary>
internal static class LearntOfJob
{
    public const string Key = "learnt";

    /// <summary>A hundred times as fast, and a hundred times as slow: nobody taught more.</summary>
    private static readonly NumberRange LnFactor = NumberRange.From(-5, 5, "");

    private static readonly NumberRange LnVariance = NumberRange.From(0, 1, "");

    public static ImmutableDictionary<CoatKey, Learnt> Read(JsonCursor coats, string job, ImmutableArray<Surface> surfaces)
    {
        var begun = ImmutableDictionary.CreateBuilder<CoatKey, Learnt>();
        string[] names = [.. surfaces.Select(s => s.Id)];
        foreach (JsonCursor coat in coats.Items(most: SurfacesOfJob.MostCoats))
        {
            _ = coat.Keys(["surface", "layer", "section"], "flash", "keepDry");
            string? surface = coat["surface"].String(names.Contains, $"a surface of the job: {string.Join(", ", names)}");
            int? layer = coat["layer"].Integer(1, SurfacesOfJob.MostLayers), section = coat["section"].Integer(1, SurfacesOfJob.MostSections);
            var learnt = new Learnt(Effect(coat["flash"]), Effect(coat["keepDry"]));
            if (surface is not null && layer is not null && section is not null
                && !begun.TryAdd(new CoatKey(job, surface, layer.Value, section.Value), learnt))
            {
                coat.Refuse("each coat once");
            }
        }

        return begun.ToImmutable();
    }

    private static LearntEffect? Effect(JsonCursor place)
    {
        if (!place.Keys(["lnFactor", "lnVariance"], "here", "everywhere"))
        {
            return null;
        }

        double? mean = place["lnFactor"].Number(LnFactor), variance = place["lnVariance"].Number(LnVariance);
        int? here = place["here"].Integer(0, int.MaxValue), everywhere = place["everywhere"].Integer(0, int.MaxValue);
        return mean is null || variance is null ? null : new LearntEffect(mean.Value, variance.Value, here ?? 0, everywhere ?? 0);
    }
}
