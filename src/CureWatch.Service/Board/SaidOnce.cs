namespace CureWatch.Service.Board;

/// <summary>Leaves out of a card what it says already: a caution that stands there three times is read as often as none.</summary>
internal sealed class SaidOnce
{
    private readonly HashSet<string> _said = new(StringComparer.Ordinal);

    /// <summary>What of these was not said yet; from here on it is. To be asked in the order of the card.</summary>
    public string[] Of(IEnumerable<string> cautions) => [.. cautions.Where(_said.Add)];
}
