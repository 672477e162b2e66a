using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>Which sections of a surface take their next layer in one go.</summary>
/// <remarks>
/// All of them, as long as there is a time still to come at which each takes it. A section that was polished off and coated again opens when the others have closed: then those that are
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

    /// <summary>When the last section of a layer that is begun was wiped on; one that was polished off is done anew, whenever that suits.</summary>
    /// <param name="story">What people told of the surface.</param>
    /// <param name="layer">The layer, from 1.</param>
    /// <returns>The instant; null where none of it is on, or nothing of it is left.</returns>
    public static DateTimeOffset? BegunAt(SurfaceStory story, int layer) =>
        Enumerable.Range(1, story.Surface.Sections).Any(s => story.IsMissing(layer, s) && story.PolishedOffAt(layer, s) is null)
            ? story.Living.Where(c => c.Layer == layer).Max(c => (DateTimeOffset?)c.LastWipeAt)
            : null;

    /// <summary>The layer that goes on next, and the sections that miss it.</summary>
    /// <param name="story">What people told of the surface.</param>
    /// <param name="windowsOf">The windows of a living coat.</param>
    /// <param name="now">The present.</param>
    /// <returns>
    /// The lowest that is missing anywhere; where only what was polished off misses it, one above it that is about to close elsewhere goes first. Null where all are on.
    /// </returns>
    public static (int Layer, ImmutableArray<(int Section, BelowCoat? Below)> Missing)? Next(SurfaceStory story, Func<Coat, CoatWindows> windowsOf, DateTimeOffset now)
    {
        (int Layer, ImmutableArray<(int Section, BelowCoat? Below)> Missing)[] layers =
        [
            .. from layer in Enumerable.Range(1, story.Surface.Layers)
               let missing = Missing(story, layer, windowsOf)
               where !missing.IsEmpty
               select (layer, missing),
        ];
        if (layers is [var lowest, .. var above] && lowest.Missing.All(m => story.PolishedOffAt(lowest.Layer, m.Section) is not null))
        {
            foreach ((int layer, ImmutableArray<(int Section, BelowCoat? Below)> missing) in above)
            {
                ImmutableArray<(int Section, BelowCoat? Below)> covering = [.. missing.Where(m => m.Below is not null)];
                if (covering.Any(m => IsClosing(m.Below!, now)))
                {
                    return (layer, covering);
                }
            }
        }

        return layers.Length > 0 ? layers[0] : null;
    }

    /// <summary>Chooses them.</summary>
    /// <param name="below">The coat below in each section that misses the layer; null where there is none.</param>
    /// <param name="now">The present.</param>
    /// <returns>The sections, in order; at least one.</returns>
    public static ImmutableArray<int> Of(IReadOnlyList<(int Section, BelowCoat? Below)> below, DateTimeOffset now)
    {
        ImmutableArray<(int Section, DateTimeOffset Opens, DateTimeOffset Closes)> all = [.. below.Select(b => (b.Section, OpensAt(b.Below), ClosesAt(b.Below)))];
        ImmutableArray<(int Section, DateTimeOffset Opens, DateTimeOffset Closes)> left = [.. all.Where(s => s.Closes >= now)];
        if (left.IsEmpty || (left.Length == all.Length && HaveATime(all)))
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

    private static bool IsClosing(BelowCoat below, DateTimeOffset now) =>
        Window.ClosingFrom(below.Recoat?.OpensAt.Latest, below.IsFoundClear ? null : below.Recoat?.ClosesAt?.Earliest) is { } closing
        && closing <= now && now <= below.Recoat!.ClosesAt!.Earliest;

    private static DateTimeOffset OpensAt(BelowCoat? below) => below?.Recoat is { } window ? window.OpensAt.Latest ?? DateTimeOffset.MaxValue : DateTimeOffset.MinValue;

    private static DateTimeOffset ClosesAt(BelowCoat? below) =>
        below is { IsFoundClear: false, Recoat.ClosesAt.Earliest: { } closes } ? closes : DateTimeOffset.MaxValue;
}
