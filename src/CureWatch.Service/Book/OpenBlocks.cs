namespace CureWatch.Service.Book;

/// <summary>Each probe's newest readings, in memory until they fill a block.</summary>
internal sealed class OpenBlocks
{
    private readonly Dictionary<(string Bay, string Probe), ReadingBlock> _blocks = [];
    private readonly HashSet<ReadingBlock> _unsaved = [];

    /// <summary>The blocks with readings that were not stored yet.</summary>
    public IReadOnlyCollection<ReadingBlock> Unsaved => _unsaved;

    public void Load(ReadingBlock block) => _blocks[(block.Bay, block.Probe)] = block;

    /// <summary>Everything is stored.</summary>
    public void Saved() => _unsaved.Clear();

    /// <summary>Takes a reading in; one that is already in a block of its probe is skipped.</summary>
    /// <returns>The block that it found full, to be sealed; null where there was room.</returns>
    public ReadingBlock? Take(string bay, string probe, long sequence, BookedReading reading)
    {
        ReadingBlock block = Of(bay, probe) ?? new ReadingBlock(bay, probe, 0);
        if (sequence <= block.Through)
        {
            return null;
        }

        ReadingBlock? full = null;
        if (!block.HasRoomFor(reading.At.ToUnixTimeMilliseconds()))
        {
            full = block;
            _unsaved.Remove(full);
            block = new ReadingBlock(bay, probe, full.Through);
        }

        _blocks[(bay, probe)] = block;
        _unsaved.Add(block);
        block.Add(sequence, reading);
        return full;
    }

    /// <returns>A probe's open block; null where it told nothing yet.</returns>
    public ReadingBlock? Of(string bay, string probe) => _blocks.GetValueOrDefault((bay, probe));
}
