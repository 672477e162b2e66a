using System.Collections.Immutable;
using CureWatch.Panels;

namespace CureWatch.Curing;

/// <summary>What people told of getting a section ready to be coated: wiped, measured, and what warmed it.</summary>
/// <param name="WipedAt">When it was last wiped down; null where nobody told.</param>
/// <param name="TouchedSince">The first tap after that wipe that undid it; null where it still stands.</param>
/// <param name="Spots">What was read on it by hand, in order.</param>
/// <param name="PolishedAt">When it was last polished; null where nobody told.</param>
/// <param name="LampOnAt">Since when a lamp is on it; null where none is.</param>
/// <param name="LampOffAt">When the last lamp was switched off, or left behind as the car moved; null where none was.</param>
public sealed record Preparation(
    DateTimeOffset? WipedAt,
    Tap? TouchedSince,
    ImmutableArray<OwnReading> Spots,
    DateTimeOffset? PolishedAt,
    DateTimeOffset? LampOnAt,
    DateTimeOffset? LampOffAt)
{
    /// <summary>When something other than the air last warmed it: a polishing machine, or a lamp. Null where nothing did.</summary>
    public DateTimeOffset? HeatedAt => PolishedAt > LampOffAt || LampOffAt is null ? PolishedAt : LampOffAt;

    /// <summary>Reads the taps of a job as the preparation of one section.</summary>
    /// <param name="surface">The surface.</param>
    /// <param name="section">The section, from 1; taps that name another are about that one.</param>
    /// <param name="told">All taps of the job in the order they were told.</param>
    /// <returns>The preparation.</returns>
    public static Preparation Of(Surface surface, int section, IReadOnlyList<Tap> told)
    {
        ImmutableArray<Tap> standing = Taps.Standing(told);
        Tap[] all = [.. standing.Where(t => (t.Surface is null || t.Surface == surface.Id) && !(t.Section > surface.Sections))];
        Tap[] own = [.. all.Where(t => t.Section is null || t.Section == section)];
        int wiped = LastIndex(own, Did.PanelWiped);
        ImmutableArray<Spell> lamps = LampSpell.Over(all, section);
        return new Preparation(
            At(own, wiped),
            wiped < 0 ? null : own.Skip(wiped + 1).FirstOrDefault(UndoesAWipe),
            [.. own.Where(t => t is { Did: Did.Measured, PanelC: not null }).Select(t => OwnReading.ByHand(t.At, t.PanelC!.Value))],
            At(own, Array.FindLastIndex(own, t => t.Did == Did.Polished || IsPolishedOff(t))),
            lamps is [.., { To: null, From: var since }] ? since : null,
            own.Where(t => t.Did == Did.LampOff && !IsOfALamp(t)).Select(t => (DateTimeOffset?)t.At).Concat(lamps.Select(l => l.To)).Max());

        // One that nobody told of was over this surface too, for all anybody knows; "all lamps off" says nothing of a surface that had none.
        bool IsOfALamp(Tap off) => (off.Surface is null ? standing.AsEnumerable() : all).Any(t => t.Did == Did.LampOn && t.At <= off.At);
    }

    /// <summary>
    /// Water and polish leave what the wipe took away, and a car that was moved gathers dust; whether a thermometer touched the panel nobody can tell.
    /// Source (choice): common practice, no source.
    /// </summary>
    private static bool UndoesAWipe(Tap tap) =>
        tap.Did is Did.Measured or Did.Polished or Did.Washed or Did.Wetted or Did.Dried or Did.Moved || IsPolishedOff(tap);

    private static bool IsPolishedOff(Tap tap) => tap is { Did: Did.Reworked, How: How.PolishedOff };

    private static int LastIndex(Tap[] own, Did did) => Array.FindLastIndex(own, t => t.Did == did);

    private static DateTimeOffset? At(Tap[] own, int index) => index < 0 ? null : own[index].At;
}
