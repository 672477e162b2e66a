using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>What lamps have earned a coat.</summary>
/// <param name="Stages">The stages it counts for, which the sheet treats alike.</param>
/// <param name="Pieces">Every stretch under a lamp, and what became of it, in order.</param>
public sealed record CoatLamp(ImmutableArray<Stage> Stages, ImmutableArray<LampPiece> Pieces)
{
    /// <summary>Minutes that count [min].</summary>
    public double CreditedMinutes => Pieces.Where(p => p.Verdict == LampVerdict.Credited).Sum(p => p.Minutes);

    /// <summary>What they earn [reference h].</summary>
    public double ReferenceHours => Pieces.Sum(p => p.Minutes * p.ReferenceHoursPerMinute);

    /// <summary>Minutes that do not count [min], by why not, in the order of the reasons.</summary>
    public IEnumerable<(LampVerdict Why, double Minutes)> Refused =>
        from piece in Pieces
        where piece.Verdict != LampVerdict.Credited
        group piece.Minutes by piece.Verdict into alike
        orderby alike.Key
        select (alike.Key, alike.Sum());

    /// <summary>What a surface's lamps have earned a coat, once for stages with the same bands.</summary>
    internal static ImmutableArray<CoatLamp> Of(UnderLamp lamps, Coat coat, CoatLaws laws, DateTimeOffset now) =>
    [
        .. from stage in laws.Sheet.Lamp.SelectMany(b => b.Stages).Distinct().Order()
           group stage by laws.Sheet.Lamp.Aggregate(0L, (bands, b) => (2 * bands) + (b.Stages.Contains(stage) ? 1 : 0)) into alike
           let pieces = lamps.CreditOf(coat, laws, alike.First(), now)
           where !pieces.IsEmpty
           select new CoatLamp([.. alike], pieces),
    ];
}
