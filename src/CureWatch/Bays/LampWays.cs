using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>Finds the least time under a lamp that makes a promise: only as the sheet's bands allow, and while the shop is open.</summary>
/// <param name="shop">The shop.</param>
/// <param name="job">The job.</param>
/// <param name="lockUp">When the lamp has to be off, because nobody is there any more.</param>
/// <remarks>
/// The slowest surface gets it, minute by minute; once it is no longer the slowest, the next one does, one after the other. What a lamp earns counts
/// beyond what the air would have earned in those minutes. Nothing is lit while a coat in its air, whoever's, gives off solvent.
/// </remarks>
internal sealed class LampWays(Shop shop, JobState job, DateTimeOffset lockUp)
{
    /// <summary>How long a panel takes into its band. Source (choice): the heaviest of the metal panels, and setting the lamp up.</summary>
    internal static readonly TimeSpan HeatsUp = TimeSpan.FromMinutes(15);

    private readonly Present _present = new(shop, shop.Now);

    /// <summary>Every coat that is on and still here: what leaves it catches fire at whoever's lamp.</summary>
    private readonly Lazy<CoatAtRisk[]> _coats = new(() =>
    {
        var present = new Present(shop, shop.Now);
        return [.. shop.Jobs.Values.Where(j => j.LeftAt is null).SelectMany(j => CoatsAtRisk.Of(shop, present, j, (_, _) => null))];
    });

    /// <summary>Finds it.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">The job.</param>
    /// <param name="target">The chance asked for [1].</param>
    /// <param name="tryOut">What would follow.</param>
    /// <returns>The way; none where the bay has no lamp, the shop is closed, or no sheet lets a lamp help now.</returns>
    public static IEnumerable<WayBack> Of(Shop shop, JobState job, double target, Func<Supposed, Prospect> tryOut)
    {
        ShopDay? day = shop.Plan.Hours.DayAt(shop.Now);
        return day?.Opens <= shop.Now && new LampWays(shop, job, day.LocksUp ?? DateTimeOffset.MaxValue).Find(target, tryOut) is { } way ? [way] : [];
    }

    /// <summary>What is supposed where a surface gets a time under a lamp; nothing where that is not allowed.</summary>
    public static Supposed Of(Shop shop, JobState job, string surface, int minutes) => OnOne(shop, job, surface, minutes) ?? Supposed.Nothing;

    /// <summary>Whether a surface may not get a time under a lamp now.</summary>
    public static bool Forbids(Shop shop, JobState job, string surface, int minutes) => OnOne(shop, job, surface, minutes) is null;

    private static Supposed? OnOne(Shop shop, JobState job, string surface, int minutes)
    {
        ShopDay? day = shop.Plan.Hours.DayAt(shop.Now);
        SurfaceStory story = job.Stories.First(s => s.Surface.Id == surface);
        var ways = new LampWays(shop, job, day?.LocksUp ?? DateTimeOffset.MaxValue);
        return day?.Opens <= shop.Now && ways.HasLamp(story) && story.Living.Any()
            ? ways.Lit(ImmutableSortedDictionary.Create<string, int>(StringComparer.Ordinal).Add(surface, minutes))
            : null;
    }

    private WayBack? Find(double target, Func<Supposed, Prospect> tryOut)
    {
        var minutes = ImmutableSortedDictionary.Create<string, int>(StringComparer.Ordinal);
        Supposed supposed = Supposed.Nothing;
        Prospect then = tryOut(supposed);
        while (then.Chance < target && SlowestUnder(supposed) is { } story)
        {
            ImmutableSortedDictionary<string, int> longer = minutes.SetItem(story.Surface.Id, minutes.GetValueOrDefault(story.Surface.Id) + 1);
            if (Lit(longer) is not { } lit)
            {
                break;
            }

            (minutes, supposed, then) = (longer, lit, tryOut(lit));
        }

        return minutes.IsEmpty
            ? null
            : new WayBack(
                WayKind.Lamp, $"the lamp", null, null, [.. minutes.Select(m => (m.Key, m.Value))], supposed.LampsUntil.Values.Max(), then, then.Chance >= target);
    }

    /// <summary>The surface that decides; null where it is not a lamp that it waits for, or its bay has none.</summary>
    private SurfaceStory? SlowestUnder(Supposed supposed)
    {
        PromiseScene scene = PromiseScene.Of(shop, new Present(shop, shop.Now) { Supposed = supposed }, job);
        AwaitedCoat? slowest = scene.Coats.MaxBy(c => c.ReadyAt.Latest ?? DateTimeOffset.MaxValue);
        SurfaceStory? story = slowest is { Waits: Awaits.KeepDry } ? job.Stories.First(s => s.Surface.Id == slowest.Surface.Id) : null;
        return story is not null && HasLamp(story) && Earned(story, story.Living.First(c => c.Layer == slowest!.Layer && c.Section == slowest.Section), 1) > 0 ? story : null;
    }

    private bool HasLamp(SurfaceStory story) =>
        _present.StaysOf(job.Job, story)[^1].Bay is { } bay && shop.Bays[bay].Plan.Equipment.Contains(Equipment.Lamp);

    /// <summary>What is supposed with times under the lamp, one surface after the other as soon as each may be lit; null where a sheet, or the end of the day, forbids it.</summary>
    private Supposed? Lit(ImmutableSortedDictionary<string, int> minutes)
    {
        Supposed supposed = Supposed.Nothing;
        DateTimeOffset off = shop.Now;
        foreach ((SurfaceStory story, int time, DateTimeOffset? mayBe) in
            from lit in minutes
            let story = job.Stories.First(s => s.Surface.Id == lit.Key)
            let litFrom = MayBeLitFrom(story)
            orderby litFrom
            select (story, lit.Value, litFrom))
        {
            (Coat Coat, double? Hours)[] earned = [.. story.Living.Select(c => (c, Earned(story, c, time)))];
            if (mayBe is not { } from || earned.Any(e => e.Hours is null))
            {
                return null;
            }

            off = (from > off ? from : off) + HeatsUp + TimeSpan.FromMinutes(time);
            if (off > lockUp)
            {
                return null;
            }

            supposed = supposed with
            {
                LampHours = supposed.LampHours.SetItems(earned.Select(e => KeyValuePair.Create(CoatKey.Of(job.Job.Id, e.Coat), e.Hours!.Value))),
                LampsUntil = supposed.LampsUntil.SetItem(story.Surface.Id, off),
            };
        }

        return supposed;
    }

    /// <summary>From when on the sheets let a surface be lit, and no solvent is in its air; null where nobody can tell.</summary>
    private DateTimeOffset? MayBeLitFrom(SurfaceStory story)
    {
        string? air = AirWorks.AirspaceOf(shop, _present.StaysOf(job.Job, story)[^1].Bay!);
        DateTimeOffset from = story.Living.Select(c => (shop.LawsOf(c).CureStartOf(c) ?? c.AppliedAt) + (BandOf(c, shop.LawsOf(c))?.NotBefore ?? TimeSpan.Zero))
            .Concat(_coats.Value.Where(c => c.Airspace == air).Select(c => c.SolventUntil).OfType<DateTimeOffset>()).Max();
        return from == DateTimeOffset.MaxValue ? null : from;
    }

    /// <summary>What a time under a lamp earns a coat beyond what the air does; null where its sheet allows no such time.</summary>
    private double? Earned(SurfaceStory story, Coat coat, int minutes)
    {
        CoatLaws laws = shop.LawsOf(coat);
        bool isLevelled = laws.Flash is null || coat.LevelledAt is not null;
        if (!isLevelled || BandOf(coat, laws) is not { } band || UsedMinutes(story, coat, laws) + minutes > band.MaxMinutes)
        {
            return null;
        }

        double airHoursPerMinute = _present.StaysOf(job.Job, story)[^1].Point is { } point && _present.ExposureAt(point) is { } exposure
            ? laws.KeepDry!.Law.Likely(laws.KeepDry.Law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa)) / 60
            : 0;
        return minutes * Math.Max(0, band.ReferenceHoursPerMinute - airHoursPerMinute);
    }

    /// <summary>The band of its sheet that helps keep-dry, below what every layer and what lies under it can take; null where there is none.</summary>
    private LampBand? BandOf(Coat coat, CoatLaws laws)
    {
        double limitC = shop.HeatLimitOfC(coat.Surface);
        return laws.KeepDry is null ? null : laws.Sheet.Lamp.Where(b => b.Stages.Contains(Stage.KeepDry) && b.PanelMinC < limitC).MinBy(b => b.ReferenceHoursPerMinute);
    }

    private double UsedMinutes(SurfaceStory story, Coat coat, CoatLaws laws) => _present.LampsOver(job.Job, story) is { } lamps
        ? CoatLamp.Of(lamps, coat, laws, shop.Now).Where(l => l.Stages.Contains(Stage.KeepDry)).Sum(l => l.CreditedMinutes)
        : 0;
}
