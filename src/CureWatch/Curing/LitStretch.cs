using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>A stretch in which a lamp heats the surface, or its heat has not gone yet.</summary>
/// <remarks>
/// The rate law is not extrapolated to a lamp's heat, where silanols no longer wait for water: what may be counted on, and what is likely, is the sheet's
/// lamp credit where it counts, else what the surface would have earned in the air without the lamp. What must be reckoned with is the most of both and
/// of the law at the heat that was measured; where nobody read the surface, at the heat it may have had, so that reading nothing moves no deadline later.
/// </remarks>
public sealed record LitStretch : Stretch
{
    private readonly RateLaw _law;
    private readonly ClimateSegment _segment;
    private readonly double _hoursPerMinute;
    private readonly double? _guessedKelvins;
    private readonly Credit _whole;

    /// <summary>Takes a straight segment.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="segment">The climate as it was measured.</param>
    /// <param name="referenceHoursPerMinute">What the sheet gives for a minute of it [h/min]; 0 where it does not count.</param>
    /// <param name="guessedKelvins">How hot it may have been [K]; null where somebody read the surface.</param>
    public LitStretch(RateLaw law, ClimateSegment segment, double referenceHoursPerMinute, double? guessedKelvins = null)
        : base(segment.Start, segment.End)
    {
        _law = law;
        _segment = segment;
        _hoursPerMinute = referenceHoursPerMinute;
        _guessedKelvins = guessedKelvins;
        _whole = Over(segment);
    }

    /// <inheritdoc/>
    public override Credit Between(DateTimeOffset start, DateTimeOffset until) =>
        start == From && until == To ? _whole : Over(_segment.Between(start, until));

    /// <inheritdoc/>
    public override DateTimeOffset? ReachedAt(DateTimeOffset start, double hours, Pace pace)
    {
        if (Between(start, To).Of(pace) < hours)
        {
            return null;
        }

        (long early, long late) = (start.UtcTicks, To.UtcTicks);
        while (late - early > Resolution.Ticks)
        {
            long middle = early + ((late - early) / 2);
            (early, late) = Between(start, new DateTimeOffset(middle, TimeSpan.Zero)).Of(pace) < hours ? (middle, late) : (early, middle);
        }

        return new DateTimeOffset(late, TimeSpan.Zero);
    }

    /// <inheritdoc/>
    public override Exposure ExposureAt(DateTimeOffset instant) => _segment.ExposureAt(instant);

    /// <inheritdoc/>
    public override Stretch Part(DateTimeOffset start, DateTimeOffset until) => new LitStretch(_law, _segment.Between(start, until), _hoursPerMinute, _guessedKelvins);

    /// <inheritdoc/>
    public override ClimateSegment SegmentFrom(DateTimeOffset start, DateTimeOffset until) => _segment.Between(start, until);

    private static readonly TimeSpan Resolution = TimeSpan.FromMilliseconds(0.1);

    private Credit Over(ClimateSegment segment)
    {
        Credit unlit = segment.CrossesAirAt is { } crossing
            ? CureIntegral.Over(_law, segment.Between(segment.Start, crossing).Unlit()) + CureIntegral.Over(_law, segment.Between(crossing, segment.End).Unlit())
            : CureIntegral.Over(_law, segment.Unlit());
        double fast = Math.Max(unlit.Fast, CureIntegral.Over(_law, segment).Fast);
        fast = _guessedKelvins is { } kelvins ? Math.Max(fast, CureIntegral.Over(_law, At(segment, kelvins)).Fast) : fast;
        if (_hoursPerMinute == 0)
        {
            return unlit with { Fast = fast };
        }

        double given = (segment.End - segment.Start).TotalMinutes * _hoursPerMinute;
        double airKelvins = (segment.AtStart.AirKelvins + segment.AtEnd.AirKelvins) / 2;
        return new Credit(given, given, Math.Max(fast, given), WeightedX: 0, WeightedY: 0, given * airKelvins, WeightedColderK: 0);
    }

    private static ClimateSegment At(in ClimateSegment segment, double kelvins) => ClimateSegment.Plain(
        segment.Start, segment.End, segment.AtStart with { PanelKelvins = kelvins }, segment.AtEnd with { PanelKelvins = kelvins });
}
