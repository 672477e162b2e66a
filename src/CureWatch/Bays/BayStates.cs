using System.Collections.Frozen;
using System.Collections.Immutable;

namespace CureWatch.Bays;

/// <summary>What is known of each bay, by bay, in the order in which they were set up.</summary>
/// <remarks>
/// With every reading one bay is another: then three short rows are copied, among ten thousand bays too, and what is not copied is shared.
/// A bay that was never there costs a look at them all.
/// </remarks>
public sealed class BayStates
{
    /// <summary>How many stand in a row, and so many rows behind each other in a block: a power of two.</summary>
    private const int Row = 32;

    private readonly FrozenDictionary<string, int> _places;
    private readonly ImmutableArray<ImmutableArray<ImmutableArray<BayState>>> _blocks;

    private BayStates(FrozenDictionary<string, int> places, ImmutableArray<ImmutableArray<ImmutableArray<BayState>>> blocks) =>
        (_places, _blocks) = (places, blocks);

    /// <summary>No bay.</summary>
    public static BayStates Empty { get; } = new(FrozenDictionary<string, int>.Empty, []);

    /// <summary>The bays.</summary>
    public IEnumerable<string> Ids => Values.Select(b => b.Plan.Bay);

    /// <summary>What is known of each.</summary>
    public IEnumerable<BayState> Values => _blocks.SelectMany(block => block.SelectMany(row => row));

    /// <summary>What is known of a bay.</summary>
    /// <param name="bay">The bay, one of these.</param>
    public BayState this[string bay] => Find(bay) ?? throw new KeyNotFoundException($"There is no bay {bay}.");

    /// <summary>What is known of a bay.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>What is known; null where there is no such bay.</returns>
    public BayState? Find(string bay) => _places.TryGetValue(bay, out int place) ? _blocks[place / Row / Row][place / Row % Row][place % Row] : null;

    /// <summary>These, with a bay as it is now.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>The bays.</returns>
    internal BayStates With(BayState bay)
    {
        if (!_places.TryGetValue(bay.Plan.Bay, out int place))
        {
            return And([bay]);
        }

        ImmutableArray<ImmutableArray<BayState>> block = _blocks[place / Row / Row];
        ImmutableArray<BayState> row = block[place / Row % Row];
        return new BayStates(_places, _blocks.SetItem(place / Row / Row, block.SetItem(place / Row % Row, row.SetItem(place % Row, bay))));
    }

    /// <summary>These, and others behind them.</summary>
    /// <param name="others">Bays that are none of these.</param>
    /// <returns>The bays.</returns>
    internal BayStates And(IEnumerable<BayState> others)
    {
        BayState[] all = [.. Values, .. others];
        return new BayStates(
            all.Select((bay, place) => (bay.Plan.Bay, place)).ToFrozenDictionary(b => b.Bay, b => b.place),
            [.. all.Chunk(Row).Chunk(Row).Select(block => block.Select(ImmutableArray.Create).ToImmutableArray())]);
    }
}
