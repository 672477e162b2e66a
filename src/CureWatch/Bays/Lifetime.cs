using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;

namespace CureWatch.Bays;

/// <summary>Puts together the stretches of a coat's life, so that none is missing.</summary>
/// <param name="law">The law of the clock.</param>
/// <param name="from">When the coat was begun.</param>
/// <param name="now">The present.</param>
/// <remarks>
/// What nobody measured, before the first reading, away from the bay, is a gap between the climates on either side: straight between them
/// where both are known, held where one is, the reference climate where none is. It earns the slow bound nothing.
/// </remarks>
internal sealed class Lifetime(RateLaw law, DateTimeOffset from, DateTimeOffset now)
{
    private readonly List<Stretch> _stretches = [];
    private DateTimeOffset _reached = from;

    public static Exposure AtReference(RateLaw law)
    {
        double kelvins = law.Reference.Temperature.Kelvins;
        return new Exposure(kelvins, law.Reference.Humidity.Fraction * SaturationPressure.OverWaterPa(kelvins), kelvins);
    }

    public ImmutableArray<Stretch> Along(ImmutableArray<(Stay Stay, ImmutableArray<Stretch> Measured)> stays)
    {
        foreach ((Stay stay, ImmutableArray<Stretch> measured) in stays)
        {
            foreach (Stretch piece in measured)
            {
                Add(piece, Latest(piece.From, stay.From), Earliest(piece.To, stay.To));
            }
        }

        if (_reached < now || _stretches.Count == 0)
        {
            Fill(Latest(now, _reached.AddTicks(1)), null);
        }

        return [.. _stretches];
    }

    private void Add(Stretch piece, DateTimeOffset start, DateTimeOffset end)
    {
        start = Latest(start, _reached);
        if (start >= end)
        {
            return;
        }

        if (_reached < start)
        {
            Fill(start, piece);
        }

        _stretches.Add(piece switch
        {
            Stretch.Settled settled => settled with { From = start, To = end },
            Stretch.Loose loose => new Stretch.Loose(law, loose.Segment.Between(start, end)),
            _ => throw new InvalidOperationException(piece.GetType().Name),
        });
        _reached = end;
    }

    private void Fill(DateTimeOffset to, Stretch? next)
    {
        Exposure? before = _stretches.Count > 0 ? _stretches[^1].ExposureAt(_reached) : null;
        Exposure? after = next?.ExposureAt(to) ?? (before is null ? AtReference(law) : null);
        _stretches.Add(new Stretch.Loose(law, ClimateSegment.Unmeasured(_reached, to, before, after)));
        _reached = to;
    }

    private static DateTimeOffset Latest(DateTimeOffset a, DateTimeOffset b) => a > b ? a : b;

    private static DateTimeOffset Earliest(DateTimeOffset a, DateTimeOffset? b) => b < a ? b.Value : a;
}
