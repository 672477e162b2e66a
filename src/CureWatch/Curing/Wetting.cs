using System.Collections.Immutable;

namespace CureWatch.Curing;

/// <summary>Water that touched a surface.</summary>
/// <param name="WettedAt">When.</param>
/// <param name="DriedAt">When it was dried; null while nobody told.</param>
public sealed record Wetting(DateTimeOffset WettedAt, DateTimeOffset? DriedAt)
{
    /// <summary>The section it touched, from 1; null where each one was wetted and dried as the others were.</summary>
    public int? Section { get; init; }

    /// <summary>Whether it touched a section.</summary>
    /// <param name="section">The section, from 1.</param>
    public bool IsOn(int section) => Section is null || Section == section;

    /// <summary>Reads the taps of a surface as water on it.</summary>
    /// <param name="own">The standing taps that concern the surface, in order.</param>
    /// <param name="sections">How many sections it has; a tap that names one it has not is about other surfaces.</param>
    /// <returns>In order of the wetting; each section by itself where not all were wetted and dried alike.</returns>
    public static ImmutableArray<Wetting> Of(IReadOnlyList<Tap> own, int sections)
    {
        ImmutableArray<Wetting>[] each = [.. Enumerable.Range(1, sections).Select(s => Over([.. own.Where(t => t.Section is null || t.Section == s)]))];
        return each.All(w => w.SequenceEqual(each[0]))
            ? each[0]
            : [.. each.SelectMany((wettings, i) => wettings.Select(w => w with { Section = i + 1 })).OrderBy(w => w.WettedAt).ThenBy(w => w.Section)];
    }

    /// <summary>
    /// Who says of a surface that it is dry says so of all the water on it; said again, it was not dry before, unless somebody has coated it or found it clear
    /// since. A word about the whole car is not about what was dry already.
    /// </summary>
    private static ImmutableArray<Wetting> Over(IEnumerable<Tap> own)
    {
        var wettings = new List<Wetting>();
        DateTimeOffset? settledAt = null;
        foreach (Tap tap in own)
        {
            settledAt = tap is { Did: Did.Applied } or { Did: Did.Inspected, Found: Found.Clear } ? tap.At : settledAt;
            if (tap.Did is Did.Wetted or Did.Washed)
            {
                wettings.Add(new Wetting(tap.At, null));
            }
            else if (tap.Did == Did.Dried)
            {
                for (int i = 0; i < wettings.Count; i++)
                {
                    bool isAgain = tap.Surface is not null && wettings[i].DriedAt >= wettings[^1].WettedAt && !(settledAt >= wettings[i].DriedAt);
                    wettings[i] = wettings[i].DriedAt is null || isAgain ? wettings[i] with { DriedAt = tap.At } : wettings[i];
                }
            }
        }

        return [.. wettings];
    }
}
