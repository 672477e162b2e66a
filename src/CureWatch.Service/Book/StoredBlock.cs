namespace CureWatch.Service.Book;

/// <summary>A <see cref="ReadingBlock"/> on disk: a sealed one in the order of time, or a probe's open one.</summary>
internal sealed class StoredBlock
{
    public string Id { get; set; } = "";

    public int Version { get; set; } = 1;

    public string Kind { get; set; } = "readings";

    public string Bay { get; set; } = "";

    public string Probe { get; set; } = "";

    public long BaseUnixMs { get; set; }

    public long FromUnixMs { get; set; }

    public long ToUnixMs { get; set; }

    public long Through { get; set; }

    public byte[] Samples { get; set; } = [];

    /// <summary>The key of a sealed block: a probe's blocks stand together, in the order in which they end.</summary>
    public static string SealedId(string bay, string probe, long toUnixMs, long through) => $"{bay}/{probe}/{toUnixMs:D15}/{through:D19}";

    public static StoredBlock OfSealed(ReadingBlock block) => Of(block, SealedId(block.Bay, block.Probe, block.ToUnixMs, block.Through));

    public static StoredBlock OfOpen(ReadingBlock block) => Of(block, $"{block.Bay}/{block.Probe}");

    public ReadingBlock Read() => new(Bay, Probe, BaseUnixMs, FromUnixMs, ToUnixMs, Through, Samples);

    private static StoredBlock Of(ReadingBlock block, string id) => new()
    {
        Id = id,
        Bay = block.Bay,
        Probe = block.Probe,
        BaseUnixMs = block.BaseUnixMs,
        FromUnixMs = block.FromUnixMs,
        ToUnixMs = block.ToUnixMs,
        Through = block.Through,
        Samples = block.Samples.ToArray(),
    };
}
