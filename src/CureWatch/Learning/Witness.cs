using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;

namespace CureWatch.Learning;

/// <summary>Says what a seen end of a stage teaches: the coat's own climate, as the stage's law credits it, against the sheet.</summary>
public static class Witness
{
    /// <summary>The most of the time that nobody may have measured [1]. Source (choice): for a flash nothing, for a night a missed report.</summary>
    private const double MostUnwatched = 0.02;

    /// <summary>What it took, against the sheet.</summary>
    /// <param name="record">The climate the coat lived through, as the stage's law sees it.</param>
    /// <param name="from">When the stage's clock started.</param>
    /// <param name="at">When its end was seen, after that.</param>
    /// <param name="sheetHours">The sheet's time at its reference climate [h].</param>
    /// <returns>ln(Θ/D) at the likely pace [1]; null where nobody measured that climate.</returns>
    public static double? LnRatio(CureRecord record, DateTimeOffset from, DateTimeOffset at, double sheetHours)
    {
        double unwatched = Unwatched(record, from, at).Sum(s => s.TotalHours);
        double earned = record.Between(from, at).Likely;
        return unwatched > MostUnwatched * (at - from).TotalHours || earned <= 0 || at > record.End ? null : Math.Log(earned / sheetHours);
    }

    /// <summary>What nobody measured, and what a lamp heated: its heat is no climate that the sheet's law is for.</summary>
    private static IEnumerable<TimeSpan> Unwatched(CureRecord record, DateTimeOffset begun, DateTimeOffset seen) =>
        from stretch in record.Stretches
        where stretch.To > begun && stretch.From < seen
        from spell in stretch switch
        {
            Stretch.Settled settled => GapsOf(settled, record.Law.Mechanism, begun, seen),
            Stretch.Loose loose => IsGap(loose.Segment, record.Law.Mechanism) ? [(stretch.From, stretch.To)] : [],
            _ => [(stretch.From, stretch.To)],
        }
        let start = Latest(spell.From, stretch.From, begun)
        let end = Earliest(spell.To, stretch.To, seen)
        where start < end
        select end - start;

    private static IEnumerable<(DateTimeOffset From, DateTimeOffset To)> GapsOf(
        Stretch.Settled stretch, Mechanism clock, DateTimeOffset begun, DateTimeOffset seen)
    {
        Trail<ClimateSegment> segments = stretch.Track.Segments;
        for (int i = segments.CountWhile((in s) => s.End <= begun); i < segments.Count && segments[i].Start < seen; i++)
        {
            if (IsGap(segments[i], clock))
            {
                yield return (segments[i].Start, segments[i].End);
            }
        }
    }

    private static bool IsGap(in ClimateSegment segment, Mechanism clock) => segment.IsUnconfirmed || segment.Unseen?.IsGapFor(clock) == true;

    private static DateTimeOffset Latest(DateTimeOffset a, DateTimeOffset b, DateTimeOffset c) =>
        a >= b ? (a >= c ? a : c) : b >= c ? b : c;

    private static DateTimeOffset Earliest(DateTimeOffset a, DateTimeOffset b, DateTimeOffset c) =>
        a <= b ? (a <= c ? a : c) : b <= c ? b : c;
}
