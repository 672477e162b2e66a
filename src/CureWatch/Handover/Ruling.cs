using System.Collections.Immutable;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Handover;

/// <summary>Whether the car may go back to its owner, and if not, every reason.</summary>
/// <param name="IsReady">True where nothing holds it.</param>
/// <param name="ReadyAt">When the last keep-dry ends; null while only a person can bring it about, or nothing is on the car.</param>
/// <param name="CollectFrom">When it can be collected, finished and in opening hours; null where that can't be said.</param>
/// <param name="Holds">Every reason it may not leave.</param>
/// <param name="Notes">What is worth knowing and holds nothing.</param>
public sealed record Ruling(
    bool IsReady, TimeBounds? ReadyAt, DateTimeOffset? CollectFrom, ImmutableArray<Hold> Holds, ImmutableArray<Note> Notes)
{
    /// <summary>Which probes were not heard or not believed on the way there; empty where all were, or nobody asked.</summary>
    public ImmutableArray<WindowReason> Because { get; init; } = [];

    /// <summary>When the last keep-dry would end if every probe at fault were put right now; null where none is, or nobody asked.</summary>
    public TimeBounds? IfMended { get; init; }

    /// <summary>Until when it has to stay dry.</summary>
    public KeepDry KeepDry { get; init; } = KeepDry.Over;

    /// <summary>Rules on a handover.</summary>
    /// <param name="surfaces">The evidence of every surface.</param>
    /// <param name="hours">When the shop is open.</param>
    /// <param name="finishing">Hands-on time after the last keep-dry.</param>
    /// <param name="now">The present.</param>
    /// <returns>
    /// The ruling: ready only when the latest end of keep-dry has passed and no hold stands; with no coat on the car, when a person found
    /// that to be right.
    /// </returns>
    public static Ruling On(IReadOnlyList<Evidence> surfaces, OpeningHours hours, TimeSpan finishing, DateTimeOffset now)
    {
        ImmutableArray<Hold> holds = [.. surfaces.SelectMany(s => new Holds(s, now, hours.Zone).All())];
        TimeBounds? readyAt = ReadyWhen(surfaces);
        return new Ruling(
            holds.IsEmpty && (now >= readyAt?.Latest || surfaces.All(e => e.Coats.IsEmpty)),
            readyAt,
            readyAt?.Latest is { } latest ? hours.AfterWork(latest, finishing) : null,
            holds,
            [.. surfaces.SelectMany(LeftLonger), .. surfaces.SelectMany(s => NotLookedAt(s, now, hours.Zone))])
        {
            KeepDry = KeepDry.Of(surfaces),
        };
    }

    private static TimeBounds? ReadyWhen(IReadOnlyList<Evidence> surfaces)
    {
        TimeBounds? ready = null;
        foreach (Evidence surface in surfaces)
        {
            foreach (CoatEvidence coat in surface.Coats)
            {
                if (coat.Windows.ReadyAt is not { } at)
                {
                    return null;
                }

                ready = ready?.OrLater(at) ?? at;
            }
        }

        return ready;
    }

    private static IEnumerable<Note> LeftLonger(Evidence surface) =>
        from coat in surface.Coats
        where coat.Windows.Laws.IfMissed == IfMissed.Note && coat.Windows.WasLevelledLate
        select new Note(surface.Story.Surface.Id, coat.Coat.Layer, $"Left longer than usual before the excess was wiped; no harm by its sheet.");

    /// <summary>The look itself holds nothing; what it would have found might have.</summary>
    private static IEnumerable<Note> NotLookedAt(Evidence surface, DateTimeOffset now, TimeZoneInfo zone) =>
        from coat in surface.Coats
        where coat.Coat.LevelledAt is { } levelled && now > SecondLook.Ends(coat.Coat, levelled) && SecondLook.IsAwaited(surface.Story, coat.Coat, coat.Windows.Laws)
        group coat.Coat by coat.Coat.Layer into layer
        let sections = Sentence.Join(", ", layer.Select(c => c.Section).Order().Select(s => (Sentence)$"{s}"))
        let since = TimeZoneInfo.ConvertTime(layer.Max(c => c.LevelledAt!.Value), zone)
        select new Note(
            surface.Story.Surface.Id,
            layer.Key,
            surface.Story.Surface.Sections > 1
                ? (Sentence)$"Section {sections}: no second look under light since it was levelled {since:ddd d MMM HH:mm}; high spots harden in 30 to 60 minutes. Look before it leaves."
                : $"No second look under light since it was levelled {since:ddd d MMM HH:mm}; high spots harden in 30 to 60 minutes. Look before it leaves.");
}

/// <summary>Something worth knowing that holds nothing.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer.</param>
/// <param name="Text">What happened.</param>
public sealed record Note(string Surface, int Layer, Sentence Text);
