using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>What a sheet gives a coat for its time under lamps.</summary>
/// <remarks>
/// Time counts between two readings of the surface itself that both lie in the sheet's band and are close enough together; on the way up, on the way
/// down and above the band it does not, and neither does what nobody read. It counts from the sheet's <c>notBefore</c> after the start of the cure
/// clock, up to its <c>maxMinutes</c> in all. Source: sheet. Choice: a reading alone earns nothing beyond it; where bands overlap the one that gives
/// least counts; a coat that has to be levelled and is not counts as too early.
/// </remarks>
public static class LampCredit
{
    /// <summary>Judges every stretch under a lamp.</summary>
    /// <param name="bands">The sheet's bands for the stage asked about.</param>
    /// <param name="lit">When a lamp was over the surface, in order, each with its end.</param>
    /// <param name="own">The surface's own readings, in order.</param>
    /// <param name="cureStart">When the coat's cure clock was started; null where nobody told.</param>
    /// <param name="now">The present: what lies after it is not judged, nor what the next reading may still tell.</param>
    /// <returns>The stretches in order, none overlapping; adjacent ones differ in what became of them.</returns>
    public static ImmutableArray<LampPiece> Along(
        ImmutableArray<LampBand> bands, IEnumerable<Spell> lit, IReadOnlyList<OwnReading> own, DateTimeOffset? cureStart, DateTimeOffset now)
    {
        var judged = new Judged(bands, cureStart);
        foreach (Spell spell in lit)
        {
            DateTimeOffset end = spell.To < now ? spell.To.Value : now;
            DateTimeOffset reached = spell.From;
            for (int i = 0; i <= own.Count && reached < end; i++)
            {
                OwnReading? before = i > 0 ? own[i - 1] : null, after = i < own.Count ? own[i] : null;
                DateTimeOffset to = after?.At < end ? after.Value.At : end;
                bool isAwaited = before is { } last && after is null && now - last.At <= last.Reach;
                if (to > reached && !isAwaited)
                {
                    judged.Judge(before, after, reached, to);
                }

                reached = to > reached ? to : reached;
            }
        }

        return judged.Pieces;
    }

    private sealed class Judged(ImmutableArray<LampBand> bands, DateTimeOffset? cureStart)
    {
        private readonly List<LampPiece> _pieces = [];
        private readonly Dictionary<LampBand, TimeSpan> _left = bands.Distinct().ToDictionary(b => b, b => TimeSpan.FromMinutes(b.MaxMinutes));

        public ImmutableArray<LampPiece> Pieces => [.. _pieces];

        public void Judge(OwnReading? before, OwnReading? after, DateTimeOffset from, DateTimeOffset to)
        {
            if (before is not { } first || after is not { } second || !first.Reaches(second))
            {
                Add(from, to, LampVerdict.NoOwnReading);
            }
            else if (bands.Where(b => IsIn(b, first) && IsIn(b, second)).MinBy(b => b.ReferenceHoursPerMinute) is { } band)
            {
                Credit(band, from, to);
            }
            else
            {
                bool isTooHot = bands.All(b => Math.Max(first.PanelC, second.PanelC) > b.PanelMaxC);
                Add(from, to, isTooHot ? LampVerdict.TooHot : LampVerdict.RampUp);
            }
        }

        private void Credit(LampBand band, DateTimeOffset from, DateTimeOffset to)
        {
            DateTimeOffset opens = cureStart + band.NotBefore is { } at ? Between(at, from, to) : to;
            DateTimeOffset ends = Between(opens + _left[band], opens, to);
            _left[band] -= ends - opens;
            Add(from, opens, LampVerdict.TooEarly);
            Add(opens, ends, LampVerdict.Credited, band.ReferenceHoursPerMinute);
            Add(ends, to, LampVerdict.TooLong);
        }

        private void Add(DateTimeOffset from, DateTimeOffset to, LampVerdict verdict, double hoursPerMinute = 0)
        {
            if (from >= to)
            {
                return;
            }

            var piece = new LampPiece(from, to, verdict, hoursPerMinute);
            if (_pieces is [.., var last] && last.To == from && last.Verdict == verdict && last.ReferenceHoursPerMinute == hoursPerMinute)
            {
                _pieces[^1] = last with { To = to };
            }
            else
            {
                _pieces.Add(piece);
            }
        }

        private static bool IsIn(LampBand band, OwnReading reading) => reading.PanelC >= band.PanelMinC && reading.PanelC <= band.PanelMaxC;

        private static DateTimeOffset Between(DateTimeOffset at, DateTimeOffset from, DateTimeOffset to) => at < from ? from : at > to ? to : at;
    }
}
