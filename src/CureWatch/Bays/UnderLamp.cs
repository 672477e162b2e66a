using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The lamps over a surface, and what it was read to be under them.</summary>
/// <param name="Lit">When a lamp burned, in order, each with its end.</param>
/// <param name="LitSections">The same over each section.</param>
/// <param name="Own">The surface's own readings around that time, in order.</param>
internal sealed record UnderLamp(ImmutableArray<Spell> Lit, ImmutableArray<ImmutableArray<Spell>> LitSections, ImmutableArray<OwnReading> Own)
{
    /// <summary>The lamps over a surface; null where there never was one.</summary>
    public static UnderLamp? Of(Shop shop, SurfaceKey key, SurfaceStory story, ImmutableArray<Stay> stays)
    {
        if (story.Lamps.IsEmpty)
        {
            return null;
        }

        ImmutableArray<OwnReading> own = OwnReadings.Of(shop, key, story, stays, story.Lamps[0].From - OwnReading.ReachOfSpot);
        return new UnderLamp(Ended(story.Lamps), [.. story.SectionLamps.Select(Ended)], own);

        ImmutableArray<Spell> Ended(ImmutableArray<Spell> lamps) => [.. lamps.Select(l => story.Ended(l, own))];
    }

    /// <summary>Whether what was read at an instant may count for a lamp's credit: those readings are kept as they came.</summary>
    public static bool IsUnder(IReadOnlyList<Spell> lamps, DateTimeOffset at) =>
        lamps.Any(l => at >= l.From - OwnReading.ReachOfSpot && !(at > l.To + OwnReading.ReachOfSpot));

    /// <summary>When a probe was read under lamps.</summary>
    public static IEnumerable<DateTimeOffset> ReadUnder(Trail<Sample> samples, IReadOnlyList<Spell> lamps)
    {
        if (lamps.Count == 0)
        {
            yield break;
        }

        DateTimeOffset first = lamps.Min(l => l.From) - OwnReading.ReachOfSpot;
        for (int i = samples.CountWhile((in s) => s.At < first); i < samples.Count; i++)
        {
            if (IsUnder(lamps, samples[i].At))
            {
                yield return samples[i].At;
            }
        }
    }

    /// <summary>Whether a lamp heats a surface now, or its heat has not gone yet.</summary>
    public static bool IsFelt(Shop shop, BayState bay, SurfaceKey? key) =>
        key is { } own && bay.Heats.TryGetValue(own, out SurfaceHeat? heat)
        && heat.Lamps.Any(l => shop.Now >= l.From
            && shop.Now <= (l.To ?? EndOf(shop, own, l.From)) + (heat.TimeConstant * LampHeat.LongestCooling));

    /// <summary>When a lamp that was switched on at an instant is off, as far as anybody knows; no later than that where there was none.</summary>
    public static DateTimeOffset EndOf(Shop shop, SurfaceKey key, DateTimeOffset from)
    {
        JobState job = shop.Jobs[key.Job];
        SurfaceStory story = job.Stories.First(s => s.Surface.Id == key.Surface);
        return story.Lamps.Any(l => l.From == from)
            ? Of(shop, key, story, Stay.Of(shop, job.Job, story))!.Lit.Last(l => l.From == from).To!.Value
            : from;
    }

    /// <summary>What the lamps earn a coat on a stage: nothing where the sheet has no band for it, or above what the film or plastic under it bears.</summary>
    public ImmutableArray<LampPiece> CreditOf(Coat coat, CoatLaws laws, Stage? stage, DateTimeOffset now)
    {
        double limitC = HeatLimit.OfC(coat.Surface, laws.Sheet);
        ImmutableArray<LampBand> bands =
        [
            .. laws.Sheet.Lamp.Where(b => b.Stages.Any(s => s == stage)).Select(b => b with { PanelMaxC = Math.Min(b.PanelMaxC, limitC) }),
        ];
        ImmutableArray<Spell> lit = LitOver(coat);
        return bands.IsEmpty
            ? []
            : LampCredit.Along(
                bands, lit.Where(l => l.To > coat.StartedAt), [.. OwnOf(coat, lit, bands.Min(b => b.PanelMinC))], laws.CureStartOf(coat), now);
    }

    /// <summary>Puts the lamps into the stretches of a coat's life.</summary>
    public ImmutableArray<Stretch> Over(ImmutableArray<Stretch> life, Coat coat, CoatLaws laws, TimedStage stage, DateTimeOffset now) =>
        new LitLife(stage.Law, Lit, CreditOf(coat, laws, stage.Stage, now), HottestC(coat, laws), UnreadBy(now)).Along(life);

    /// <summary>The lamps over a section, and what was read of the surface but for what was read by hand on another.</summary>
    public (ImmutableArray<Spell> Lit, ImmutableArray<OwnReading> Own) OverSection(int section) =>
        (LitSections[section - 1], Own.RemoveAll(r => r.Section is { } other && other != section));

    /// <summary>The lamps over a coat; one that is only foretold has no section yet.</summary>
    private ImmutableArray<Spell> LitOver(Coat coat) => coat.Section >= 1 && coat.Section <= LitSections.Length ? LitSections[coat.Section - 1] : Lit;

    /// <summary>
    /// What was read of a coat's section: not what was read by hand on another, and once a lamp was over another not what a probe says that is still hot
    /// from it.
    /// </summary>
    private IEnumerable<OwnReading> OwnOf(Coat coat, ImmutableArray<Spell> lit, double leastC)
    {
        List<(Spell Lamp, DateTimeOffset? Since)> hot =
        [
            .. lit.Select(l => (l, LitSections.SelectMany(s => s).Where(o => !lit.Contains(o) && o.To <= l.From).Max(o => o.To))).Where(l => l.Item2 is not null),
        ];
        foreach (OwnReading reading in Own.Where(r => r.Section is null || coat.Section < 1 || r.Section == coat.Section))
        {
            if (reading.PanelC < leastC)
            {
                hot.RemoveAll(l => l.Since <= reading.At);
            }

            if (reading.Section is not null || !hot.Exists(l => l.Lamp.Covers(reading.At)))
            {
                yield return reading;
            }
        }
    }

    /// <summary>How hot a lamp may have made a surface that nobody read [°C]: what the sheet's bands allow, else what film and plastic bear.</summary>
    private static double HottestC(Coat coat, CoatLaws laws) => Math.Min(
        HeatLimit.OfC(coat.Surface, laws.Sheet), laws.Sheet.Lamp.Select(b => b.PanelMaxC).DefaultIfEmpty(HeatLimit.UnstatedC).Max());

    /// <summary>When a lamp burned and nobody read the surface, in order.</summary>
    private ImmutableArray<Spell> UnreadBy(DateTimeOffset now) =>
        [.. LampCredit.Along([], Lit, Own, null, now).Where(p => p.Verdict == LampVerdict.NoOwnReading).Select(p => new Spell(p.From, p.To))];
}
