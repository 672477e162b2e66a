using System.Collections.Immutable;
using CureWatch.Planning;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>What to know of a bay at lock-up: whether what is in it gets through the night, and what helps.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="At">When it is told.</param>
/// <param name="Verdict">What it comes to.</param>
/// <param name="Cars">The cars with an open coat in it, as people call them.</param>
/// <param name="Ahead">What is expected; null where nothing is open, or nobody measures.</param>
/// <param name="Doors">What opening a door would do, where air from outdoors would wet something; else null.</param>
public sealed record TonightReport(
    string Bay, DateTimeOffset At, TonightVerdict Verdict, ImmutableArray<string> Cars, BayAhead? Ahead, Sentence? Doors)
{
    /// <summary>Older than this it tells nothing of a night any more. Source (choice): as long as cure is credited without a reading.</summary>
    private static readonly TimeSpan LongestAgo = Panels.Source.CureLimit;

    /// <summary>No more is said of a night beside water. Source (choice): it is read on the way out.</summary>
    private const int MostBesides = 2;

    /// <summary>A chance of water below this [1] is called safe: from it on people are warned.</summary>
    public const double SafeBelow = AlarmRules.LikelyEnough;

    /// <summary>From this chance on [1] what only slows the cure is said too.</summary>
    public const double WorthSaying = AlarmRules.LikelyEnoughForSheet;

    /// <summary>What to know, in a sentence or two.</summary>
    public Sentence Text => !Detail.IsNone ? (Sentence)$"{Headline} {Detail}" : Headline;

    /// <summary>What it comes to, to be read from the door.</summary>
    public required Sentence Headline { get; init; }

    /// <summary>What else is likely, and what helps; empty where there is nothing to add.</summary>
    public required Sentence Detail { get; init; }

    /// <summary>What whoever is on call has to know, in a sentence.</summary>
    public required Sentence OnCall { get; init; }

    /// <summary>How likely water condenses [1]; null where nobody can tell.</summary>
    public double? WetChance => Ahead is null ? null : Ahead.Of(WarningKind.CondensingAhead)?.Chance ?? 0;

    /// <summary>What it comes to for every bay of a shop, in the plan's order.</summary>
    /// <param name="shop">The shop.</param>
    /// <returns>The reports.</returns>
    public static ImmutableArray<TonightReport> Of(Shop shop) => [.. shop.Plan.Bays.Select(b => b.Bay).Select(OpenTonight.In(shop)).Select(o => Of(shop, o))];

    /// <summary>What it comes to for one bay.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The bay's id; the bay must be there.</param>
    /// <returns>The report at the shop's present.</returns>
    public static TonightReport Of(Shop shop, string id) => Of(shop, OpenTonight.In(shop)(id));

    /// <summary>What it comes to for what is open in a bay.</summary>
    internal static TonightReport Of(Shop shop, OpenTonight open)
    {
        (string id, BayState bay) = (open.Bay, shop.Bays[open.Bay]);
        ImmutableArray<string> cars = open.Cars;
        BayAhead? ahead = shop.Now - bay.Ahead?.At > LongestAgo ? null : bay.Ahead;
        Risk? wet = ahead?.Of(WarningKind.CondensingAhead);
        TonightVerdict verdict = cars.IsEmpty ? TonightVerdict.NothingOpen
            : ahead is null || !open.IsForetold ? TonightVerdict.Unknown
            : bay.IsWet(Panels.Place.Outside) || wet?.Chance >= SafeBelow ? TonightVerdict.AtRisk
            : TonightVerdict.Safe;
        Sentence who = cars.IsEmpty ? Sentence.Named(id) : Sentence.Names(" and ", verdict == TonightVerdict.Unknown ? cars : open.ForetoldCars);
        return new TonightReport(
            id,
            shop.Now,
            verdict,
            cars,
            ahead,
            DoorsOf(shop, id))
        {
            Headline = verdict == TonightVerdict.Unknown ? $"Tonight: not known for {who}: {open.Unknown}" : HeadlineOf(verdict, who, id, ahead, wet, shop),
            Detail = Sentence.Join(" ", new[] { DetailOf(verdict, ahead, wet, shop), verdict == TonightVerdict.Unknown ? Sentence.None : open.Besides }.Where(s => !s.IsNone)),
            OnCall = OnCallOf(verdict, wet, open, shop),
        };
    }

    /// <summary>What opening a door of a bay would do, where air from outdoors would wet something; else null.</summary>
    internal static Sentence? DoorsOf(Shop shop, string bay) =>
        shop.Standing.ContainsKey(new Subject(WarningKind.OutdoorWets) { Bay = bay, Air = Panels.Place.Outside })
            ? $"Keep the doors shut: air from outdoors would wet the coldest panel."
            : (Sentence?)null;

    private static Sentence HeadlineOf(TonightVerdict verdict, Sentence who, string bay, BayAhead? ahead, Risk? wet, Shop shop) => verdict switch
    {
        TonightVerdict.NothingOpen => $"Tonight: nothing in {bay} has to stay dry.",
        TonightVerdict.AtRisk when wet is null => $"Tonight: {who} at risk: water condenses now.",
        TonightVerdict.AtRisk => $"Tonight: {who} at risk from {Clock(wet!.From, shop)}, {AheadWords.Percent(wet.Chance)}.",
        _ when Besides(ahead!, shop).IsNone => $"Tonight: {who} safe.",
        _ => $"Tonight: {who} safe from water, but:",
    };

    private static Sentence DetailOf(TonightVerdict verdict, BayAhead? ahead, Risk? wet, Shop shop) => verdict switch
    {
        TonightVerdict.AtRisk when wet is not null => AheadWords.Helps(wet, shop),
        TonightVerdict.Safe when Besides(ahead!, shop) is { IsNone: false } besides => $"{besides} {Least(ahead!, shop)}",
        TonightVerdict.Safe => Least(ahead!, shop),
        _ => Sentence.None,
    };

    private static Sentence Least(BayAhead ahead, Shop shop) =>
        $"Least above the dew point likely {Figures.Kelvins(ahead.Night.LeastSpreadK)} at {Clock(ahead.Night.LeastSpreadAt, shop)}, "
        + $"coldest panel {Figures.Degrees(ahead.Night.ColdestC)} at {Clock(ahead.Night.ColdestAt, shop)}.";

    /// <summary>What else is likely beside water: it spoils nothing overnight, and slows the cure, or keeps a sheet from being met.</summary>
    private static Sentence Besides(BayAhead ahead, Shop shop) => Sentence.Join(" ", ahead.Risks
        .Where(r => r.Kind != WarningKind.CondensingAhead && r.Chance >= WorthSaying)
        .OrderBy(r => r.Kind != WarningKind.CureStalledAhead).Take(MostBesides)
        .SelectMany(r => new[]
        {
            AheadWords.Of(r with { From = r.From < shop.Now ? shop.Now : r.From }, shop.Now, shop.Plan.Hours.Zone),
            r.Remedies.IsEmpty ? Sentence.None : AheadWords.Helps(r, shop),
        })
        .Where(s => !s.IsNone));

    private static Sentence OnCallOf(TonightVerdict verdict, Risk? wet, OpenTonight open, Shop shop) => verdict switch
    {
        TonightVerdict.Unknown when !open.IsForetold => $"On call: nobody has to come; look at the coats by hand first thing in the morning.",
        TonightVerdict.Unknown => $"On call: get a probe heard again, or look at the coats by hand.",
        TonightVerdict.AtRisk when wet is { Remedies: [var best, ..] } => $"On call: from {Clock(wet.From - CallAhead, shop)} on. {best.Text}.",
        TonightVerdict.AtRisk => $"On call: nobody has to come, for nothing here helps overnight; look at the coats first thing in the morning.",
        _ => $"On call: nobody has to come.",
    };

    /// <summary>Somebody on call is told this long before. Source (choice): time to come and for the heating to help.</summary>
    private static readonly TimeSpan CallAhead = TimeSpan.FromHours(2);

    private static Sentence Clock(DateTimeOffset at, Shop shop) => WallClock.Of(at < shop.Now ? shop.Now : at, shop.Now, shop.Plan.Hours.Zone);
}

/// <summary>What a night comes to.</summary>
public enum TonightVerdict
{
    /// <summary>Nothing in the bay has to stay dry.</summary>
    NothingOpen,

    /// <summary>Nobody can tell.</summary>
    Unknown,

    /// <summary>Water is unlikely.</summary>
    Safe,

    /// <summary>Water may condense.</summary>
    AtRisk,
}
