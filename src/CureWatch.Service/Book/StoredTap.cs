using CureWatch.Curing;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Book;

/// <summary>A <see cref="BookedTap"/> on disk.</summary>
internal sealed class StoredTap
{
    /// <summary>The number of its entry.</summary>
    public long Id { get; set; }

    public int Version { get; set; } = 1;

    public string Kind { get; set; } = "tap";

    public string Job { get; set; } = "";

    public string? Tap { get; set; }

    public long AtUnixMs { get; set; }

    public long ReportedAtUnixMs { get; set; }

    public string? Surface { get; set; }

    public string Did { get; set; } = "";

    public int? Layer { get; set; }

    public int? Section { get; set; }

    public long? StartedAtUnixMs { get; set; }

    public double? PanelC { get; set; }

    public string? Found { get; set; }

    public string? How { get; set; }

    public string? ToBay { get; set; }

    public string? Corrects { get; set; }

    public long? PromisedAtUnixMs { get; set; }

    public string? Batch { get; set; }

    public static StoredTap Of(BookedTap told) => new()
    {
        Id = told.Number,
        Job = told.Job,
        Tap = told.Tap.Id,
        AtUnixMs = told.Tap.At.ToUnixTimeMilliseconds(),
        ReportedAtUnixMs = told.Tap.ReportedAt.ToUnixTimeMilliseconds(),
        Surface = told.Tap.Surface,
        Did = WireName<Did>.Of(told.Tap.Did),
        Layer = told.Tap.Layer,
        Section = told.Tap.Section,
        StartedAtUnixMs = told.Tap.StartedAt?.ToUnixTimeMilliseconds(),
        PanelC = told.Tap.PanelC,
        Found = told.Tap.Found is { } found ? WireName<Found>.Of(found) : null,
        How = told.Tap.How is { } how ? WireName<How>.Of(how) : null,
        ToBay = told.Tap.ToBay,
        Corrects = told.Tap.Corrects,
        PromisedAtUnixMs = told.Tap.PromisedAt?.ToUnixTimeMilliseconds(),
        Batch = told.Tap.Batch,
    };

    public BookedTap Read() => new(
        Id,
        Job,
        new Tap(
            Tap,
            DateTimeOffset.FromUnixTimeMilliseconds(AtUnixMs),
            DateTimeOffset.FromUnixTimeMilliseconds(ReportedAtUnixMs),
            Surface,
            StoredName.Of<Did>(Did),
            Layer,
            Section,
            UnixMs.Instant(StartedAtUnixMs),
            PanelC,
            Found is null ? null : StoredName.Of<Found>(Found),
            How is null ? null : StoredName.Of<How>(How),
            ToBay,
            Corrects: Corrects,
            PromisedAt: UnixMs.Instant(PromisedAtUnixMs),
            Batch: Batch));
}
