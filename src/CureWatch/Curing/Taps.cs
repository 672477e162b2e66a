using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Units;

namespace CureWatch.Curing;

/// <summary>Reads the taps of a job as stories of its surfaces.</summary>
/// <remarks>
/// Every tap is accepted as told: nothing here refuses. A tap that corrects another takes its place; both stay among the job's taps.
/// A coat applied again without being polished off is the same coat on new clocks: what happened to it before still holds it. Told again within two
/// minutes it is still being wiped on: the first wipe stays, since level-by counts from it.
/// A layer that nobody named is the first; where the act works on what is there, and not on a new coat, it is the outermost that is on, since nobody
/// can level or wet what lies under another layer. A section that nobody named is every section; a surface that nobody named is every surface.
/// Whatever is polished off takes along what lies over it. Source (choice): a pad does not go under a layer.
/// </remarks>
public static class Taps
{
    /// <summary>How far apart two wipes may lie and be one. Source (choice): what is wiped on later re-wets what has begun to flash.</summary>
    private static readonly TimeSpan OneWipe = TimeSpan.FromMinutes(2);

    /// <summary>The taps that hold, corrections in place of what they correct, without what was taken back.</summary>
    /// <param name="told">All taps in the order they were told.</param>
    /// <returns>The taps that hold, in order of when things were done.</returns>
    public static ImmutableArray<Tap> Standing(IReadOnlyList<Tap> told)
    {
        var corrections = Corrections.Of(told);
        return [.. told.Where(corrections.Holds).OrderBy(t => t.At)];
    }

    /// <summary>Tells the story of a surface.</summary>
    /// <param name="surface">The surface.</param>
    /// <param name="told">All taps of the job in the order they were told.</param>
    /// <returns>The story.</returns>
    public static SurfaceStory Story(Surface surface, IReadOnlyList<Tap> told)
    {
        ImmutableArray<Tap> own = [.. Standing(told).Where(t => IsOf(surface, t))];
        (ImmutableArray<Coat> coats, ILookup<Tap, WorkedOn> workedOn) = Worked(surface, own);
        ImmutableArray<ImmutableArray<Spell>> sectionLamps = LampSpell.BySection(own, surface.Sections);
        ImmutableArray<Spell> lamps = LampSpell.Together(sectionLamps);
        return new SurfaceStory(
            surface,
            coats,
            Wetting.Of(own, surface.Sections),
            At(own, Did.Washed),
            [.. own.Where(t => t is { Did: Did.Inspected, Found: not null }).Select(t => new Inspection(t.At, t.Found!.Value, t.Layer, t.Section))],
            [
                .. from tap in own
                   let isOfALamp = IsOfALamp(tap, lamps)
                   where MovesAClock(tap) || isOfALamp
                   let clock = ClockOf(tap, told)
                   let untimely = new Untimely(clock, Corrected(clock, told), [.. workedOn[tap]]) { IsOfALamp = isOfALamp }
                   where untimely.Corrected is not null || IsLate(clock)
                   select untimely,
                .. TakenBackLate(surface, coats, told, lamps),
            ],
            [.. own.Where(t => t is { Did: Did.Moved, ToBay: not null }).Select(t => new Move(t.At, t.ToBay!))])
        {
            SectionLamps = sectionLamps,
            Lamps = lamps,
            ReadByHand =
            [
                .. own.Where(t => t is { Surface: not null, PanelC: >= PanelSpot.ColdestC and <= PanelSpot.HottestC })
                    .Select(t => OwnReading.ByHand(t.At, t.PanelC!.Value) with { Section = t.Section }),
            ],
            Spots = Spots(surface, own, lamps),
        };
    }

    private static bool IsLate(Tap tap) => tap.ReportedAt - tap.At > Untimely.Limit;

    private static bool MovesAClock(Tap tap) => tap.Did
        is Did.Applied or Did.Flashed or Did.Levelled or Did.Wetted or Did.Dried or Did.Washed or Did.Reworked or Did.Moved;

    /// <summary>What a lamp is credited follows from when it burned, and from what was read of the surface under it.</summary>
    private static bool IsOfALamp(Tap tap, ImmutableArray<Spell> lamps) => tap.Did is Did.LampOn or Did.LampOff
        || (tap is { Surface: not null, PanelC: not null } && !MovesAClock(tap) && lamps.Any(l => l.Covers(tap.At)));

    /// <summary>The tap that set its clock: a correction that only says another batch, or another note, is as timely as what it corrects.</summary>
    private static Tap ClockOf(Tap tap, IReadOnlyList<Tap> told) =>
        Corrected(tap, told) is { } before && tap.RunsTheClocksOf(before) ? ClockOf(before, told) : tap;

    private static Tap? Corrected(Tap tap, IReadOnlyList<Tap> told) =>
        tap.Corrects is null ? null : told.FirstOrDefault(t => t.Id == tap.Corrects);

    /// <summary>
    /// A slip that is taken back at once was none; later, others have relied on it, and somebody has to look. One that is corrected into a tap of another
    /// surface, or into one that moves no clock, is taken back too.
    /// </summary>
    private static IEnumerable<Untimely> TakenBackLate(Surface surface, ImmutableArray<Coat> coats, IReadOnlyList<Tap> told, ImmutableArray<Spell> lamps)
    {
        var corrections = Corrections.Of(told);
        return
            from tap in told
            where !corrections.IsTakenBack(tap)
            let taken = Corrected(tap, told)
            where taken is not null && IsOf(surface, taken) && tap.ReportedAt - taken.ReportedAt > Untimely.UndoLimit
            let isOfALamp = IsOfALamp(taken, lamps)
            let isOfTheSame = IsOf(surface, tap) && (isOfALamp ? IsOfALamp(tap, lamps) : MovesAClock(tap))
            where (isOfALamp || MovesAClock(taken)) && !isOfTheSame
            select new Untimely(tap, taken, [.. SectionsOf(surface, taken).Select(s => new WorkedOn(LayerOf([.. coats], taken, s), s))]) { IsOfALamp = isOfALamp };
    }

    private static bool IsOf(Surface surface, Tap tap) => tap.Surface is null || tap.Surface == surface.Id;

    private static IEnumerable<int> SectionsOf(Surface surface, Tap tap) => tap.Section is { } named ? [named] : Enumerable.Range(1, surface.Sections);

    private static ImmutableArray<DateTimeOffset> At(ImmutableArray<Tap> own, Did did) => [.. own.Where(t => t.Did == did).Select(t => t.At)];

    private static ImmutableArray<PanelSpot> Spots(Surface surface, ImmutableArray<Tap> own, ImmutableArray<Spell> lamps)
    {
        Tap[] read = [.. own.Where(t => t.PanelC is >= PanelSpot.ColdestC and <= PanelSpot.HottestC)];
        return
        [
            .. from i in Enumerable.Range(0, read.Length)
               let tap = read[i]
               let isLit = lamps.Any(l => l.Covers(tap.At))
               select new PanelSpot(tap.At, tap.PanelC!.Value + Celsius.KelvinsAtZero, isLit || PanelSpot.IsSuspectOn(surface.Material))
               {
                   WasLit = i > 0 && lamps.Any(l => l.From < tap.At && !(l.To <= read[i - 1].At)),
               },
        ];
    }

    private static (ImmutableArray<Coat> Coats, ILookup<Tap, WorkedOn> On) Worked(Surface surface, ImmutableArray<Tap> own)
    {
        var coats = new List<Coat>();
        var worked = new List<(Tap Tap, WorkedOn On)>();
        foreach (Tap tap in own)
        {
            if (tap.Surface is null && tap.Section > surface.Sections)
            {
                continue; // of a job's surfaces only some have that section
            }

            foreach (int section in SectionsOf(surface, tap))
            {
                int layer = LayerOf(coats, tap, section);
                worked.Add((tap, new WorkedOn(layer, section)));
                Work(coats, surface, tap, layer, section);
            }
        }

        IEqualityComparer<Tap> each = ReferenceEqualityComparer.Instance;
        return ([.. coats.OrderBy(c => c.Section).ThenBy(c => c.Layer)], worked.ToLookup(w => w.Tap, w => w.On, each));
    }

    private static int LayerOf(List<Coat> coats, Tap tap, int section) =>
        tap.Layer ?? (tap.Did == Did.Applied || tap.How == How.PolishedOff ? 1
            : coats.Where(c => c.Section == section && c.EndedAt is null).Select(c => c.Layer).DefaultIfEmpty(1).Max());

    private static void Work(List<Coat> coats, Surface surface, Tap tap, int layer, int section)
    {
        int index = coats.FindLastIndex(c => c.Layer == layer && c.Section == section && c.EndedAt is null);
        if (tap.Did == Did.Applied)
        {
            var coat = new Coat(surface, layer, section, Earlier(tap.StartedAt, tap.At), tap.At) { Batch = string.IsNullOrEmpty(tap.Batch) ? null : tap.Batch };
            Cover(coats, coat);
            if (index >= 0)
            {
                coats[index] = GoesOn(coats[index], coat)
                    ? GoneOn(coats[index], coat)
                    : coat with { StartedAt = coats[index].StartedAt, ReworkedAt = tap.At };
            }
            else
            {
                coats.Add(coat);
            }
        }
        else if (tap is { Did: Did.Reworked, How: How.PolishedOff })
        {
            PolishOff(coats, layer, section, tap.At);
        }
        else if (index >= 0)
        {
            coats[index] = After(coats[index], tap);
        }
    }

    /// <summary>Told again within a moment it is the same wipe, in two goes or by two people: level-by still counts from its first.</summary>
    private static bool GoesOn(Coat coat, Coat told) => coat.LevelledAt is null && told.StartedAt <= coat.LastWipeAt + OneWipe;

    private static bool IsStillReWet(Coat coat, Tap tap) =>
        coat.LevelledAt is null && coat.ReworkedAt == coat.LastWipeAt && Earlier(tap.StartedAt, tap.At) <= coat.LastWipeAt + OneWipe;

    private static Coat GoneOn(Coat coat, Coat told) => coat with
    {
        StartedAt = Earlier(told.StartedAt, coat.StartedAt),
        FirstWipeAt = Earlier(told.StartedAt, coat.FirstWipeAt),
        AppliedAt = told.AppliedAt,
        LastWipeAt = told.AppliedAt,
        FlashedAt = null,
        Batch = told.Batch ?? coat.Batch,
    };

    /// <summary>The layer, and all over it, has ended; what lies under it is the outermost again.</summary>
    private static void PolishOff(List<Coat> coats, int layer, int section, DateTimeOffset at)
    {
        for (int i = 0; i < coats.Count; i++)
        {
            if (coats[i].Section == section && coats[i].EndedAt is null)
            {
                coats[i] = coats[i].Layer >= layer ? coats[i] with { EndedAt = at }
                    : coats[i].Layer == layer - 1 ? coats[i] with { CoveredAt = null }
                    : coats[i];
            }
        }
    }

    private static void Cover(List<Coat> coats, Coat over)
    {
        int below = coats.FindLastIndex(c => c.Layer == over.Layer - 1 && c.Section == over.Section && c.EndedAt is null);
        if (below >= 0)
        {
            coats[below] = coats[below] with { CoveredAt = coats[below].CoveredAt ?? over.StartedAt };
        }
    }

    private static Coat After(Coat coat, Tap tap) => (tap.Did, tap.How) switch
    {
        (Did.Flashed, _) => coat with { FlashedAt = coat.FlashedAt ?? tap.At },
        (Did.Levelled, _) => coat with { LevelledAt = coat.LevelledAt ?? tap.At },
        (Did.Reworked, How.ReWet) => coat with
        {
            FirstWipeAt = IsStillReWet(coat, tap) ? Earlier(tap.StartedAt, coat.FirstWipeAt) : Earlier(tap.StartedAt, tap.At),
            LastWipeAt = tap.At,
            FlashedAt = null,
            LevelledAt = null,
            ReworkedAt = tap.At,
        },
        (Did.Reworked, _) => coat with { LevelledAt = coat.LevelledAt ?? tap.At, ReworkedAt = tap.At },
        _ => coat,
    };

    private static DateTimeOffset Earlier(DateTimeOffset? startedAt, DateTimeOffset at) => startedAt is { } s && s < at ? s : at;
}
