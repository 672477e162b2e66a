using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Units;

namespace CureWatch.Curing;

/// <summary>Puts a surface's lamps into the stretches of a coat's life.</summary>
/// <param name="law">The law of the clock.</param>
/// <param name="lit">When a lamp was over the surface, in order, each with its end.</param>
/// <param name="pieces">What the lamps earn on that clock, in order.</param>
/// <param name="hottestC">How hot the surface may have become where nobody read it [°C].</param>
/// <param name="unread">When a lamp burned and nobody did, in order.</param>
/// <remarks>
/// The heat of a lamp lasts until the measured panel is all but as warm as the air (<see cref="CooledKelvins"/>), or as much warmer as it was before the
/// lamp: what is left of it was not earned in the sheet's band. Two sound probes may differ by their limits all day (<see cref="MostApartKelvins"/>).
/// </remarks>
public sealed class LitLife(RateLaw law, IReadOnlyList<Spell> lit, ImmutableArray<LampPiece> pieces, double hottestC, ImmutableArray<Spell> unread)
{
    private readonly DateTimeOffset[] _borders =
    [
        .. lit.Concat(unread).SelectMany(l => new[] { l.From, l.To }).OfType<DateTimeOffset>().Concat(pieces.SelectMany(p => new[] { p.From, p.To })).Distinct().Order(),
    ];

    /// <summary>How much warmer than its air a cooled panel may be [K]. Source (choice): what a panel probe resolves; even a casting earns seconds by it.</summary>
    public const double CooledKelvins = 0.1;

    /// <summary>How much warmer than the air a panel probe may read without any lamp [1.5 K]. Source (choice): the limits taken for granted of both probes.</summary>
    public const double MostApartKelvins = 1.5;

    private double _apartKelvins;
    private bool _isHot;

    /// <summary>Cuts a life where lamps begin, end and change what they earn.</summary>
    /// <param name="stretches">The life, each stretch starting where the one before ends.</param>
    /// <returns>The same life, heated stretches as <see cref="LitStretch"/>.</returns>
    public ImmutableArray<Stretch> Along(ImmutableArray<Stretch> stretches)
    {
        var life = ImmutableArray.CreateBuilder<Stretch>();
        foreach (Stretch stretch in stretches)
        {
            for (DateTimeOffset at = stretch.From; at < stretch.To; at = life[^1].To)
            {
                life.Add(From(stretch, at));
            }
        }

        return life.ToImmutable();
    }

    private static double Apart(Exposure exposure) => exposure.PanelKelvins - exposure.AirKelvins;

    private Stretch From(Stretch stretch, DateTimeOffset at)
    {
        DateTimeOffset border = _borders.FirstOrDefault(b => b > at, stretch.To);
        DateTimeOffset until = border < stretch.To ? border : stretch.To;
        if (!_isHot && !lit.Any(l => l.Covers(at)))
        {
            return at == stretch.From && until == stretch.To ? stretch : stretch.Part(at, until);
        }

        ClimateSegment segment = stretch.SegmentFrom(at, until);
        _apartKelvins = _isHot ? _apartKelvins : Math.Clamp(Apart(segment.AtStart), 0, MostApartKelvins);
        _isHot = Apart(segment.AtEnd) > _apartKelvins + CooledKelvins;
        double? guessedKelvins = unread.Any(u => u.Covers(at)) ? hottestC + Celsius.KelvinsAtZero : null;
        return new LitStretch(law, segment, pieces.FirstOrDefault(p => p.From <= at && at < p.To)?.ReferenceHoursPerMinute ?? 0, guessedKelvins);
    }
}
