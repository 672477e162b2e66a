namespace CureWatch.Service.Book;

/// <summary>A <see cref="BookedJob"/> on disk.</summary>
internal sealed class StoredJob
{
    public string Id { get; set; } = "";

    public int Version { get; set; } = 1;

    public string Kind { get; set; } = "job";

    public long Number { get; set; }

    public string Bay { get; set; } = "";

    public long StartedAtUnixMs { get; set; }

    public long? PromisedAtUnixMs { get; set; }

    /// <summary>The number of the entry with which the car left.</summary>
    public long? LeftNumber { get; set; }

    public long? LeftAtUnixMs { get; set; }

    public bool WasHeld { get; set; }

    public List<StoredSurface> Surfaces { get; set; } = [];

    public static StoredJob Of(BookedJob job) => new()
    {
        Id = job.Id,
        Number = job.Number,
        Bay = job.Bay,
        StartedAtUnixMs = job.StartedAt.ToUnixTimeMilliseconds(),
        PromisedAtUnixMs = job.PromisedAt?.ToUnixTimeMilliseconds(),
        LeftNumber = job.Left?.Number,
        LeftAtUnixMs = job.Left?.At.ToUnixTimeMilliseconds(),
        WasHeld = job.Left?.WasHeld ?? false,
        Surfaces = [.. job.Surfaces.Select(StoredSurface.Of)],
    };

    public BookedJob Read() => new(
        Number,
        Id,
        Bay,
        DateTimeOffset.FromUnixTimeMilliseconds(StartedAtUnixMs),
        UnixMs.Instant(PromisedAtUnixMs),
        LeftNumber is { } number && UnixMs.Instant(LeftAtUnixMs) is { } at ? new BookedDeparture(number, at, WasHeld) : null,
        [.. Surfaces.Select(s => s.Read())]);
}
