using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Forecasting;

/// <summary>What a surface is expected to be exposed to along a forecast, worked out once for all laws, and only when one of them asks.</summary>
/// <param name="forecast">The forecast.</param>
/// <param name="now">What the surface is exposed to at the forecast's beginning.</param>
/// <param name="otherwise">What it may be exposed to instead, where a probe is missing; those differences stay.</param>
/// <param name="fading">The time constant with which its difference from the air fades; at zero it is gone at once.</param>
public sealed class SurfaceAhead(ClimateForecast forecast, Exposure now, IReadOnlyList<Exposure> otherwise, TimeSpan fading)
{
    /// <summary>Share of the half-width of the 90 % band of an instant that a sum over hours is reckoned with [1]. Source (choice).</summary>
    private const double ShareOfBand = 0.6;

    private static readonly double[] KnotHours =
        [0, 0.25, 0.5, 1, 1.5, .. Enumerable.Range(2, ClimateForecast.Reach - 1).Select(h => (double)h)];

    private readonly Dictionary<RateLaw, Projection> _projections = [];
    private PanelAhead[]? _panels;
    private ClimateSegment[]? _segments;
    private SegmentCourse[]? _courses;

    /// <summary>How far ahead it is worked out [h], rising from 0; straight between.</summary>
    public static ReadOnlySpan<double> Knots => KnotHours;

    /// <summary>The forecast's beginning.</summary>
    public DateTimeOffset From => forecast.From;

    /// <summary>What a law is expected to earn along it.</summary>
    /// <param name="law">The law.</param>
    /// <returns>The projection.</returns>
    public Projection Along(RateLaw law)
    {
        if (!_projections.TryGetValue(law, out Projection? projection))
        {
            projection = new Projection(law, this);
            _projections.Add(law, projection);
        }

        return projection;
    }

    /// <summary>What a law likely earns up to a knot from the one before.</summary>
    internal Credit Over(RateLaw law, int knot) => CureIntegral.Over(law, Segments[knot - 1], Courses[knot - 1]);

    /// <summary>The slowest and the fastest that a law runs at a knot.</summary>
    internal (double Slow, double Fast) RatesAt(RateLaw law, int knot) => Panels[knot].Rates(law);

    private PanelAhead[] Panels => _panels ??= [.. KnotHours.Select(At)];

    private ClimateSegment[] Segments => _segments ??=
        [.. Panels.Skip(1).Select((after, i) => ClimateSegment.Plain(InstantAt(i), InstantAt(i + 1), Panels[i].Likely, after.Likely))];

    private SegmentCourse[] Courses => _courses ??= [.. Segments.Select(s => SegmentCourse.Of(s))];

    private PanelAhead At(double hours) =>
        PanelAhead.Of(forecast.At(hours, ShareOfBand), now, otherwise, hours > 0 ? Math.Exp(-hours / fading.TotalHours) : 1);

    private DateTimeOffset InstantAt(int knot) => From + TimeSpan.FromHours(KnotHours[knot]);
}
