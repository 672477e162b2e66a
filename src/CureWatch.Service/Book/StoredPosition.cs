namespace CureWatch.Service.Book;

/// <summary>A <see cref="BookPosition"/> on disk.</summary>
internal sealed class StoredPosition
{
    public const string OnlyId = "position";

    public string Id { get; set; } = OnlyId;

    public int Version { get; set; } = 1;

    public string Kind { get; set; } = "position";

    public long Sequence { get; set; }

    public long AtUnixMs { get; set; }

    public long ReadingsThrough { get; set; }

    public static StoredPosition Of(BookPosition position) => new()
    {
        Sequence = position.Sequence,
        AtUnixMs = position.At.ToUnixTimeMilliseconds(),
        ReadingsThrough = position.ReadingsThrough,
    };

    public BookPosition Read() => new(Sequence, DateTimeOffset.FromUnixTimeMilliseconds(AtUnixMs), ReadingsThrough);
}
