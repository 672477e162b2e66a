using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>A surface as somebody finds it who works on it.</summary>
/// <param name="Story">What people told of it.</param>
/// <param name="Coats">Its living coats with their windows.</param>
/// <param name="SectionsPerPass">
/// How many sections of a layer can be coated before turning back to level them, in the present climate: from 1; as many as there are where
/// there is nothing to level.
/// </param>
public sealed record SurfaceAtWork(
    SurfaceStory Story, ImmutableArray<(Coat Coat, CoatWindows Windows)> Coats, Func<int, long> SectionsPerPass)
{
    /// <summary>How warm each section still is from a lamp, null where it is not; empty where there never was one.</summary>
    public ImmutableArray<CoolDown?> WarmSections { get; init; } = [];

    /// <summary>How warm a section still is from a lamp.</summary>
    /// <param name="section">The section; null for the warmest of all.</param>
    /// <returns>How it cools; null where it is not warm.</returns>
    public CoolDown? WarmAt(int? section) => section is { } one
        ? one <= WarmSections.Length ? WarmSections[one - 1] : null
        : WarmSections.OfType<CoolDown>().MaxBy(c => c.CoolFrom ?? DateTimeOffset.MaxValue);

    /// <summary>Finds a living coat.</summary>
    /// <param name="layer">The layer.</param>
    /// <param name="section">The section.</param>
    /// <returns>The coat and its windows; null where none is on.</returns>
    public (Coat Coat, CoatWindows Windows)? Find(int layer, int section)
    {
        foreach ((Coat Coat, CoatWindows Windows) one in Coats)
        {
            if (one.Coat.Layer == layer && one.Coat.Section == section)
            {
                return one;
            }
        }

        return null;
    }

    /// <summary>The coat that goes on next, layer by layer, and section by section of those that take it together.</summary>
    /// <param name="now">The present.</param>
    /// <returns>Its layer and section; null where all are on, or were found clear without.</returns>
    public (int Layer, int Section)? NextCoatAt(DateTimeOffset now) =>
        SectionsTogether.Next(Story, c => Find(c.Layer, c.Section)!.Value.Windows, now) is var (layer, missing) ? (layer, SectionsTogether.Of(missing, now)[0]) : null;

    /// <summary>Whether some of a layer is on already.</summary>
    /// <param name="layer">The layer.</param>
    /// <returns>True where a section of it is.</returns>
    public bool HasBegun(int layer) => Coats.Any(c => c.Coat.Layer == layer);
}
