using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>When a surface that came in is dry enough, as one would say it.</summary>
internal static class ArrivalWords
{
    /// <param name="arrival">The surface.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The shop's time zone.</param>
    public static Sentence Of(SurfaceArrival arrival, DateTimeOffset now, TimeZoneInfo zone)
    {
        Sentence name = $"{arrival.Surface.Id} ({Sentence.Word(WireName<Material>.Of(arrival.Surface.Material))})";
        Sentence wipe = arrival.NeedsWipe ? $"; wipe down first" : Sentence.None;
        Sentence Clock(DateTimeOffset at) => WallClock.Of(at, now, zone);
        return arrival.DryAt switch
        {
            null => $"{name}: nobody measures the air around it.",
            { Latest: var latest } when arrival.Basis == ArrivalBasis.Unknown && !(latest <= now) =>
                $"{name}: nobody knows how cold it came in: read one spot with an infrared thermometer and tell it. "
                + $"At the coldest, {new Figure.Temperature(arrival.ColdestC!.Value, "0.#")}, it is {(latest is { } at ? (Sentence)$"dry enough {Clock(at)}" : $"never dry enough in this air")}{wipe}.",
            { Earliest: null } => $"{name}: not dry enough in this air; warm the bay or dry its air{wipe}.",
            { Latest: { } latest } when latest <= now => $"{name}: dry enough since {Clock(latest)}{wipe}.",
            { Latest: { } latest, Likely: { } likely } => $"{name}: dry enough {Clock(latest)}, likely {Clock(likely)}{wipe}.",
            { Likely: { } likely } => $"{name}: likely dry enough {Clock(likely)}, but it may never be in this air; read its temperature by hand{wipe}.",
            _ => $"{name}: may never be dry enough in this air; read its temperature by hand{wipe}.",
        };
    }
}
