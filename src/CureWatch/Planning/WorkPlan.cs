using System.Collections.Immutable;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>How the work on a car goes on from now in the present climate: layer by layer, surface by surface.</summary>
/// <param name="Layers">Every layer that is still to go on, in the order they are worked.</param>
/// <remarks>
/// First the next layer of every surface, then the one after, each once its surface takes it. Source (choice): a layer is awaited by the slow bound,
/// counted from the last section levelled; passes are as long as the level-off window of this climate lets them be, and a section that cannot be
/// timed is worked by itself.
/// </remarks>
public sealed record WorkPlan(ImmutableArray<LayerWork> Layers)
{
    /// <summary>When the last section is levelled; null where there is nothing to do.</summary>
    public DateTimeOffset? DoneAt => Layers.IsEmpty ? null : Layers[^1].DoneAt;

    /// <summary>When a surface is ready, as far as its planned layers are concerned: the last keep-dry over, or the last section levelled.</summary>
    /// <param name="surface">The surface.</param>
    /// <returns>The bounds; null where the plan has nothing of it.</returns>
    public TimeBounds? ReadyAt(string surface) => Layers.Where(l => l.Surface == surface)
        .Select(l => l.DryAt ?? TimeBounds.Known(l.DoneAt)).Aggregate((TimeBounds?)null, (last, at) => last?.OrLater(at) ?? at);

    /// <summary>Plans the work.</summary>
    /// <param name="surfaces">The surfaces in the order they are begun.</param>
    /// <param name="pace">How fast a section is worked.</param>
    /// <param name="now">The present.</param>
    /// <param name="place">
    /// From when on a layer can be worked that takes so long, not before an instant; with when it was begun where this is what is left of it. Null where it can be at any time.
    /// </param>
    /// <returns>The plan.</returns>
    public static WorkPlan Of(
        IReadOnlyList<SurfaceWork> surfaces, SectionPace pace, DateTimeOffset now, Func<DateTimeOffset, TimeSpan, DateTimeOffset?, DateTimeOffset>? place = null)
    {
        var layers = ImmutableArray.CreateBuilder<LayerWork>();
        Dictionary<string, DateTimeOffset> takesFrom = surfaces.ToDictionary(s => s.Surface, s => s.From, StringComparer.Ordinal);
        Dictionary<string, DateTimeOffset?> takesBy = surfaces.ToDictionary(s => s.Surface, s => s.By, StringComparer.Ordinal);
        DateTimeOffset free = now;
        for (int round = 0; surfaces.Any(s => s.Layer + round <= s.Layers); round++)
        {
            foreach (SurfaceWork surface in surfaces.Where(s => s.Layer + round <= s.Layers))
            {
                DateTimeOffset begun = takesFrom[surface.Surface] > free ? takesFrom[surface.Surface] : free;
                int sections = round == 0 ? surface.SectionsLeft : surface.Sections;
                CoatTimes times = surface.Times[round];
                long perPass = Math.Min(times.SectionsPerPass(pace), sections);
                TimeSpan takes = Takes(times, pace, sections, perPass);
                begun = place?.Invoke(begun, takes, round == 0 ? surface.BegunAt : null) ?? begun;
                free = begun + takes;
                layers.Add(new LayerWork(
                    surface.Surface,
                    surface.Layer + round,
                    sections,
                    perPass,
                    begun,
                    free,
                    times.KeepDry?.From(free),
                    IsTooLate: begun > takesBy[surface.Surface],
                    IsTimed(times, pace)));
                takesFrom[surface.Surface] = free + (times.RecoatFrom ?? TimeSpan.Zero);
                takesBy[surface.Surface] = times.OverBy(begun);
            }
        }

        return new WorkPlan(layers.ToImmutable());
    }

    private static bool IsTimed(CoatTimes times, SectionPace pace) =>
        !times.HasToBeLevelled || (times.Flash is { } flash && PassPlan.For(pace, flash) is not PassPlan.Unworkable);

    private static TimeSpan Takes(CoatTimes times, SectionPace pace, int sections, long perPass)
    {
        if (!times.HasToBeLevelled)
        {
            return sections * pace.Apply;
        }

        FlashWindow flash = times.Flash ?? new FlashWindow(TimeSpan.Zero, TimeSpan.Zero, endsInside: true);
        (long whole, long rest) = Math.DivRem(sections, perPass);
        return (whole * PassPlan.Takes(pace, flash, perPass)) + (rest > 0 ? PassPlan.Takes(pace, flash, rest) : TimeSpan.Zero);
    }
}

/// <summary>What is left to do on a surface.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The next layer.</param>
/// <param name="Layers">The layers planned.</param>
/// <param name="SectionsLeft">The sections of the next layer that are still to go on.</param>
/// <param name="Sections">The sections of a whole layer.</param>
/// <param name="From">When it may be begun.</param>
/// <param name="Times">How long a coat takes, for the next layer and every one after it.</param>
public sealed record SurfaceWork(
    string Surface, int Layer, int Layers, int SectionsLeft, int Sections, DateTimeOffset From, ImmutableArray<CoatTimes> Times)
{
    /// <summary>When the coat it goes over takes it no more; null where it goes over none, or that does not matter any more.</summary>
    public DateTimeOffset? By { get; init; }

    /// <summary>When the last of the next layer's sections that are on was wiped on; null where it is not begun.</summary>
    public DateTimeOffset? BegunAt { get; init; }
}

/// <summary>The work on one layer of a surface.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer.</param>
/// <param name="Sections">How many sections it is.</param>
/// <param name="SectionsPerPass">How many sections are coated before turning back to level.</param>
/// <param name="BeginsAt">The first wipe.</param>
/// <param name="DoneAt">The last section levelled, or wiped on where there is nothing to level.</param>
/// <param name="DryAt">When water may touch it; null where its sheet does not say.</param>
/// <param name="IsTooLate">Whether the layer below may take it no more by then.</param>
/// <param name="IsTimed">False where levelling cannot be timed in this climate: smaller sections, judge by eye.</param>
public sealed record LayerWork(
    string Surface,
    int Layer,
    int Sections,
    long SectionsPerPass,
    DateTimeOffset BeginsAt,
    DateTimeOffset DoneAt,
    TimeBounds? DryAt,
    bool IsTooLate,
    bool IsTimed);
