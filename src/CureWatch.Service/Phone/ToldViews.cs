using System.Globalization;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Service.Board;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>Puts what people told of a car into words, and into forms that tell it otherwise.</summary>
internal sealed class ToldViews(ShopClock clock)
{
    /// <summary>All that was told, the newest first.</summary>
    public IEnumerable<ToldView> Of(JobState state)
    {
        HashSet<Tap> standing = new(Taps.Standing(state.Told), ReferenceEqualityComparer.Instance);
        return state.Told.Reverse().Select(t => Of(state, t, standing.Contains(t)));
    }

    /// <summary>What was told last, while it is taken back as if it had never been.</summary>
    public ToldView? LastOf(JobState state) => Of(state).FirstOrDefault(t => t is { Id: not null, Holds: true } && t.UndoneUntil > clock.Now);

    private ToldView Of(JobState state, Tap tap, bool holds) => new(
        tap.Id,
        TextOf(state, tap),
        clock.Of(tap.At),
        clock.Of(tap.ReportedAt),
        Wall(tap.At),
        tap.By,
        tap.Note,
        holds,
        tap.ReportedAt + Untimely.UndoLimit,
        [.. SameAs(tap).Where(f => f.Value.Length > 0)],
        tap.Did == Did.Applied ? tap.Batch ?? "" : null,
        UtcText.Of(tap.At))
    {
        FirstWipe = tap is { Did: Did.Applied, StartedAt: { } begun } ? ($"{tap.Surface} {tap.Layer} {tap.Section}", UtcText.Of(begun)) : null,
        Place = tap.Did is Did.Told or Did.Withdrawn ? null : new ToldPlace(
            tap.Surface ?? "",
            tap.Layer is not null || tap.Did is Did.Applied or Did.Flashed or Did.Levelled or Did.Inspected or Did.Reworked ? Invariant(tap.Layer) : null,
            tap.Did == Did.Moved ? null : Invariant(tap.Section),
            tap.Did == Did.Applied || tap.How == How.ReWet ? tap.StartedAt is { } first ? Wall(first) : "" : null),
    };

    private string Wall(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, clock.Zone).ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture);

    private Sentence TextOf(JobState state, Tap tap)
    {
        Sentence where = tap.Surface is null ? (Sentence)$"all of it" : BoardWords.Coat(tap.Surface, tap.Layer, tap.Section);
        Sentence what = tap switch
        {
            { Did: Did.Inspected, Found: { } found } => $"looked at: {BoardWords.Of(found)}",
            { Did: Did.Reworked, How: { } how } => how == How.PolishedOff ? (Sentence)$"polished off" : how == How.Wiped ? (Sentence)$"wiped in time" : $"re-wetted",
            { Did: Did.Moved, ToBay: { } to } => $"moved: {BoardWords.Whereabouts(to)}",
            { Did: Did.Told, PromisedAt: { } promised } => $"told the customer {clock.Of(promised).Text}",
            _ => BoardWords.Of(tap.Did),
        };
        Sentence said = tap.Did == Did.Told ? what : $"{where}: {what}";
        Sentence read = tap.PanelC is not { } panelC ? said
            : IsSuspect(state, tap) ? (Sentence)$"{said}, {new Figure.Temperature(panelC, "0.#")} (suspect: what is bright, or under a lamp, mirrors what is around it: no release comes sooner by it)"
            : $"{said}, {new Figure.Temperature(panelC, "0.#")}";
        return string.IsNullOrEmpty(tap.Batch) ? read : $"{read}, batch {tap.Batch}";
    }

    private static bool IsSuspect(JobState state, Tap tap) => state.Stories.Any(
        s => (tap.Surface ?? s.Surface.Id) == s.Surface.Id && s.Spots.Any(p => p.At == tap.At && p.IsSuspect));

    private static IEnumerable<(string Name, string Value)> SameAs(Tap tap)
    {
        string did = WireName<Did>.Of(tap.Did);
        yield return ("did", tap.Found is { } found ? $"{did}:{WireName<Found>.Of(found)}" : tap.How is { } how ? $"{did}:{WireName<How>.Of(how)}" : did);
        yield return ("surface", tap.Surface ?? "");
        yield return ("layer", Invariant(tap.Layer));
        yield return ("section", Invariant(tap.Section));
        yield return ("panelC", tap.PanelC?.ToString(CultureInfo.InvariantCulture) ?? "");
        yield return ("toBay", tap.ToBay ?? "");
        yield return ("promisedAt", tap.PromisedAt is { } promised ? UtcText.Of(promised) : "");
        yield return ("startedAt", tap.StartedAt is { } started ? UtcText.Of(started) : "");
        yield return ("by", tap.By ?? "");
        yield return ("note", tap.Note ?? "");
    }

    private static string Invariant(int? number) => number?.ToString(CultureInfo.InvariantCulture) ?? "";
}
