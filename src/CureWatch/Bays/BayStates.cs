using System.Collections.Frozen;
using System.Collections.Immutable;

namespace CureWatch.Bays;

/// <summary>What is known of each bay, by bay, in the order in which they were set up.</summary>
/// <remarks>
/// With every reading one bay is another: then three short rows are copied, among ten thousand bays too, and what is not copied is shared.
/// Each row knows when the first of its bays is filed to be looked at: what is due is found without a look at every bay. A bay that was never there costs
/// a look at them all.
/// </remarks>
public sealed class BayStates
{
    /// <summary>How many stand in a row, and so many rows behind each other in a block: a power of two.</summary>
    private const int Row = 32;

    private const long Never = long.MaxValue;

    private readonly FrozenDictionary<string, int> _places;
    private readonly ImmutableArray<BlockOfRows> _blocks;
    private readonly long _soonest;

    private BayStates(FrozenDictionary<string, int> places, ImmutableArray<BlockOfRows> blocks)
    {
        (_places, _blocks, _soonest) = (places, blocks, Never);
        foreach (BlockOfRows block in blocks)
        {
            _soonest = Math.Min(_soonest, block.Soonest);
        }
    }

    /// <summary>No bay.</summary>
    public static BayStates Empty { get; } = new(FrozenDictionary<string, int>.Empty, []);

    /// <summary>The bays.</summary>
    public IEnumerable<string> Ids => Values.Select(b => b.Plan.Bay);

    /// <summary>What is known of each.</summary>
    public IEnumerable<BayState> Values => _blocks.SelectMany(block => block.Rows.SelectMany(row => row.Bays));

    /// <summary>When the first of them is filed; null where none is.</summary>
    internal DateTimeOffset? NextFiledAt => _soonest == Never ? null : new DateTimeOffset(_soonest, TimeSpan.Zero);

    /// <summary>The first of them, of several at one instant by id; null where none is filed.</summary>
    internal BayState? FirstFiled => NextFiledAt is { } at ? FiledBy(at).First() : null;

    /// <summary>What is known of a bay.</summary>
    /// <param name="bay">The bay, one of these.</param>
    public BayState this[string bay] => Find(bay) ?? throw new KeyNotFoundException($"There is no bay {bay}.");

    /// <summary>What is known of a bay.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>What is known; null where there is no such bay.</returns>
    public BayState? Find(string bay) => _places.TryGetValue(bay, out int place) ? _blocks[place / Row / Row].Rows[place / Row % Row].Bays[place % Row] : null;

    /// <summary>Those filed up to an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>The bays, the soonest first and of several at one instant by id.</returns>
    internal IEnumerable<BayState> FiledBy(DateTimeOffset instant) =>
        _blocks.Where(b => b.Soonest <= instant.UtcTicks).SelectMany(b => b.Rows)
            .Where(r => r.Soonest <= instant.UtcTicks).SelectMany(r => r.Bays)
            .Where(b => b.FiledAt <= instant).OrderBy(b => b.FiledAt).ThenBy(b => b.Plan.Bay, StringComparer.Ordinal);

    /// <summary>These, with a bay as it is now.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>The bays.</returns>
    internal BayStates With(BayState bay)
    {
        if (!_places.TryGetValue(bay.Plan.Bay, out int place))
        {
            return And([bay]);
        }

        BlockOfRows block = _blocks[place / Row / Row];
        RowOfBays row = block.Rows[place / Row % Row];
        return new BayStates(_places, _blocks.SetItem(place / Row / Row, block.With(place / Row % Row, row.With(place % Row, bay))));
    }

    /// <summary>These, and others behind them.</summary>
    /// <param name="others">Bays that are none of these.</param>
    /// <returns>The bays.</returns>
    internal BayStates And(IEnumerable<BayState> others)
    {
        BayState[] all = [.. Values, .. others];
        return new BayStates(
            all.Select((bay, place) => (bay.Plan.Bay, place)).ToFrozenDictionary(b => b.Bay, b => b.place),
            [.. all.Chunk(Row).Chunk(Row).Select(rows => BlockOfRows.Of([.. rows.Select(bays => RowOfBays.Of([.. bays]))]))]);
    }

    private static long TicksOf(DateTimeOffset? filedAt) => filedAt?.UtcTicks ?? Never;

    private static long Least(ImmutableArray<long> ticks)
    {
        long least = Never;
        foreach (long some in ticks)
        {
            least = Math.Min(least, some);
        }

        return least;
    }

    /// <param name="Bays">The bays.</param>
    /// <param name="Filed">When each is filed, side by side: not every bay is looked at for the first of them.</param>
    /// <param name="Soonest">When the first of them is.</param>
    private sealed record RowOfBays(ImmutableArray<BayState> Bays, ImmutableArray<long> Filed, long Soonest)
    {
        public static RowOfBays Of(ImmutableArray<BayState> bays) => Of(bays, [.. bays.Select(b => TicksOf(b.FiledAt))]);

        public RowOfBays With(int place, BayState bay) => TicksOf(bay.FiledAt) is var filed && filed == Filed[place]
            ? this with { Bays = Bays.SetItem(place, bay) }
            : Of(Bays.SetItem(place, bay), Filed.SetItem(place, filed));

        private static RowOfBays Of(ImmutableArray<BayState> bays, ImmutableArray<long> filed) => new(bays, filed, Least(filed));
    }

    /// <param name="Rows">The rows.</param>
    /// <param name="Soonest">When the first of their bays is filed.</param>
    private sealed record BlockOfRows(ImmutableArray<RowOfBays> Rows, long Soonest)
    {
        public static BlockOfRows Of(ImmutableArray<RowOfBays> rows) => new(rows, Least([.. rows.Select(r => r.Soonest)]));

        public BlockOfRows With(int place, RowOfBays row) => row.Soonest == Rows[place].Soonest
            ? this with { Rows = Rows.SetItem(place, row) }
            : Of(Rows.SetItem(place, row));
    }
}
