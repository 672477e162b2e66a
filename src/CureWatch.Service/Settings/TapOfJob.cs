using CureWatch.Curing;
using CureWatch.Readings;

namespace CureWatch.Service.Settings;

/// <summary>A tap as people write it, and where it stands.</summary>
/// <param name="Place">Where it stands.</param>
/// <param name="Id">Its id, if it has one that can be read.</param>
/// <param name="Corrects">The id it replaces, if it has one that can be read.</param>
/// <param name="Tap">The tap; null where a fault keeps it from being read.</param>
internal sealed record TapOfJob(JsonCursor Place, string? Id, string? Corrects, Tap? Tap)
{
    public const int LongestId = 64;
    public const int LongestBy = 200;

    public const int LongestBatch = 40;

    private const int LongestNote = 2000;

    /// <summary>From the coldest parked car to the hottest lamp.</summary>
    private static readonly NumberRange PanelC = NumberRange.From(-60, 200, "°C");

    /// <summary>The keys that belong to some acts alone.</summary>
    private static readonly (string Key, Did[] Acts)[] OwnKeys =
    [
        ("startedAt", [Did.Applied, Did.Reworked]), ("found", [Did.Inspected]), ("how", [Did.Reworked]), ("toBay", [Did.Moved]), ("promisedAt", [Did.Told]),
        ("batch", [Did.Applied]),
    ];

    public static readonly string[] Optional =
        ["id", "reportedAt", "surface", "layer", "section", "startedAt", "panelC", "panelF", "found", "how", "toBay", "by", "note", "corrects", "promisedAt", "batch"];

    /// <summary>The acts that say nothing without a key.</summary>
    private static readonly (Did Did, string Key)[] NeededKeys =
        [(Did.Measured, "panelC"), (Did.Inspected, "found"), (Did.Reworked, "how"), (Did.Moved, "toBay"), (Did.Told, "promisedAt"), (Did.Withdrawn, "corrects")];

    /// <summary>Nobody wipes on one section for longer. Source (choice): a day, so that a wrong date is seen and a long lunch is not.</summary>
    private static readonly TimeSpan LongestWipe = TimeSpan.FromDays(1);

    /// <param name="place">Where it stands.</param>
    /// <param name="surfaces">The surfaces of the job.</param>
    /// <param name="whereabouts">Where it may be moved.</param>
    public static TapOfJob Read(JsonCursor place, TappedSurfaces surfaces, string[] whereabouts)
    {
        _ = place.Keys(["at", "did"], Optional);
        return ReadKnown(place, surfaces, whereabouts);
    }

    /// <summary>Reads a tap that stands alone and names its job.</summary>
    public static TapOfJob ReadAlone(JsonCursor place, TappedSurfaces surfaces, string[] whereabouts)
    {
        _ = place.Keys(["at", "did"], [.. Optional, "job"]);
        return ReadKnown(place, surfaces, whereabouts);
    }

    /// <summary>Whether the tap says itself when it was told.</summary>
    public bool SaysWhenTold => !Place["reportedAt"].IsAbsent;

    private static TapOfJob ReadKnown(JsonCursor place, TappedSurfaces surfaces, string[] whereabouts)
    {
        string? id = place["id"].Text(LongestId), corrects = place["corrects"].Text(LongestId);
        Did? did = place["did"].OneOf<Did>();
        CheckOwnKeys(place, did);
        How? how = place["how"].OneOf<How>();
        DateTimeOffset? at = place["at"].Instant(), startedAt = place["startedAt"].Instant();
        if (startedAt > at || at - startedAt > LongestWipe)
        {
            place["startedAt"].Refuse("at or before at, by a day at most");
        }

        if (how is How.Wiped or How.PolishedOff && !place["startedAt"].IsAbsent)
        {
            place["startedAt"].Refuse("startedAt with a re-wet only, of all rework: what is taken off has no first wipe");
        }

        DateTimeOffset? reportedAt = place["reportedAt"].Instant();
        if (at - reportedAt > ProbeLog.ClockTolerance)
        {
            place["reportedAt"].Refuse("at or after at");
        }

        string? surface = surfaces.SurfaceOf(place["surface"]);
        var tap = new Tap(
            id,
            at ?? default,
            Later(at, reportedAt),
            surface,
            did ?? default,
            surfaces.LayerOf(place["layer"], surface),
            surfaces.SectionOf(place["section"], surface),
            startedAt,
            place.Celsius("panel", PanelC),
            place["found"].OneOf<Found>(),
            how,
            place["toBay"].String(whereabouts.Contains, string.Join(" | ", whereabouts)),
            place["by"].Text(LongestBy),
            place["note"].String(IsNote, $"text of 1 to {LongestNote} characters"),
            corrects,
            place["promisedAt"].Instant(),
            place["batch"].String(IsBatch, $"text of up to {LongestBatch} characters on one line, empty where nobody knows it"));
        return new TapOfJob(place, id, corrects, at is null || did is null ? null : tap);
    }

    /// <summary>Nothing is told before it happened; where clocks disagree by little, the act's own time counts.</summary>
    private static DateTimeOffset Later(DateTimeOffset? at, DateTimeOffset? reportedAt) =>
        reportedAt > at ? reportedAt.Value : at ?? default;

    private static void CheckOwnKeys(JsonCursor place, Did? did)
    {
        foreach ((string key, Did[] acts) in OwnKeys.Where(k => did is { } d && !k.Acts.Contains(d) && !place[k.Key].IsAbsent))
        {
            place[key].Refuse($"{key} with did {string.Join(" | ", acts.Select(WireName<Did>.Of))} only");
        }

        foreach ((Did act, string key) in NeededKeys.Where(k => k.Did == did && place[k.Key].IsAbsent && !(k.Did == Did.Measured && !place["panelF"].IsAbsent)))
        {
            place[key].Refuse($"the key {key}, which did {WireName<Did>.Of(act)} needs");
        }
    }

    private static bool IsBatch(string batch) =>
        batch.Length == 0 || (!string.IsNullOrWhiteSpace(batch) && batch.Length <= LongestBatch && !batch.Any(char.IsControl));

    private static bool IsNote(string note) =>
        !string.IsNullOrWhiteSpace(note) && note.Length <= LongestNote
        && !note.Any(c => char.IsControl(c) && c is not ('\n' or '\r' or '\t'));
}
