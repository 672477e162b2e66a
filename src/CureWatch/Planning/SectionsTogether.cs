using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>Which sections of a surface take their next layer in one go.</summary>
/// <remarks>
/// All of them, as long as there is a time at which each takes it. A section that was polished off and coated again opens when the others have closed: then those that are
/// open go first, else those that open first.
/// </remarks>
public static class SectionsTogether
{
    /// <summary>The sections that miss a layer, each with what it goes over there.</summary>
    /// <param name="story">What people told of the surface.</param>
    /// <param name="layer">The layer, from 1.</param>
    /// <param name="windowsOf">The windows of a living coat.</param>
    /// <returns>The sections, in order; none where it is on everywhere.</returns>
    public static ImmutableArray<(int Section, BelowCoat? Below)> Missing(SurfaceStory story, int layer, Func<Coat, CoatWindows> windowsOf) =>
    [
        .. from section in Enumerable.Range(1, story.Surface.Sections)
           where story.IsMissing(layer, section)
           let coat = story.Living.FirstOrDefault(c => c.Layer == layer - 1 && c.Section == section)
           select (section, coat is null ? null : BelowCoat.Of(story, coat, windowsOf(coat))),
    ];

    /// <summary>Chooses them.</summary>
    /// <param name="below">The coat below in each section that misses the layer; null where there is none.</param>
    /// <param name="now">The present.</param>
    /// <returns>The sections, in order; at least one.</returns>
    public static ImmutableArray<int> Of(IReadOnlyList<(int Section, BelowCoat? Below)> below, DateTimeOffset now)
    {
        ImmutableArray<(int Section, DateTimeOffset Opens, DateTimeOffset Closes)> all = [.. below.Select(b => (b.Section, OpensAt(b.Below), ClosesAt(b.Below)))];
        ImmutableArray<(int Section, DateTimeOffset Opens, DateTimeOffset Closes)> left = [.. all.Where(s => s.Closes >= now)];
        if (left.IsEmpty || HaveATime(all))
        {
            return [.. all.Select(s => s.Section)];
        }

        var together = ImmutableArray.CreateBuilder<(int Section, DateTimeOffset Opens, DateTimeOffset Closes)>();
        foreach ((int Section, DateTimeOffset Opens, DateTimeOffset Closes) section in left.OrderBy(s => s.Opens))
        {
            bool isOfTheFirst = section.Opens <= now || together.Count == 0 || together[0].Opens > now;
            if (together.Count == 0 || (isOfTheFirst && HaveATime(together.Append(section)))) // one that may never have a time is told so
            {
                together.Add(section);
            }
        }

        return [.. together.Select(s => s.Section).Order()];
    }

    private static bool HaveATime(IEnumerable<(int Section, DateTimeOffset Opens, DateTimeOffset Closes)> sections) => sections.Max(s => s.Opens) < sections.Min(s => s.Closes);

    private static DateTimeOffset OpensAt(BelowCoat? below) => below?.Recoat is { } window ? window.OpensAt.Latest ?? DateTimeOffset.MaxValue : DateTimeOffset.MinValue;

    private static DateTimeOffset ClosesAt(BelowCoat? below) =>
        below is { IsFoundClear: false, Recoat.ClosesAt.Earliest: { } closes } ? closes : DateTimeOffset.MaxValue;
}
