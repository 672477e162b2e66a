using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Forecasting;

/// <summary>What a law is expected to earn along a forecast, summed up once for all coats on it.</summary>
/// <remarks>
/// The likely pace along the likely climate. The slow and the fast one take at each instant the worst and the best corner of the bounds of
/// panel temperature and vapour pressure. A sum over hours strays less than each of its hours, so the bounds lie closer than those of an instant.
/// </remarks>
public sealed class Projection
{
    /// <summary>Share of the half-width of the 90 % band of an instant that a sum over hours is reckoned with [1]. Source (choice).</summary>
    private const double ShareOfBand = 0.6;

    /// <summary>Beyond the forecast the mean of its last day [h] goes on.</summary>
    private const double LastDay = 24;
    private static readonly double[] Knots =
        [0, 0.25, 0.5, 1, 1.5, .. Enumerable.Range(2, ClimateForecast.Reach - 1).Select(h => (double)h)];

    private readonly DateTimeOffset _from;
    private readonly Credit[] _sums = new Credit[Knots.Length];
    private readonly Credit _perHourAfter;

    private Projection(DateTimeOffset from, RateLaw law, Func<double, PanelAhead> at)
    {
        _from = from;
        PanelAhead before = at(Knots[0]);
        for (int i = 1; i < Knots.Length; i++)
        {
            PanelAhead after = at(Knots[i]);
            double hours = Knots[i] - Knots[i - 1];
            var segment = ClimateSegment.Plain(InstantAt(i - 1), InstantAt(i), before.Likely, after.Likely);
            _sums[i] = _sums[i - 1] + (CureIntegral.Over(law, segment) with
            {
                Slow = hours * (before.Rates(law).Slow + after.Rates(law).Slow) / 2,
                Fast = hours * (before.Rates(law).Fast + after.Rates(law).Fast) / 2,
            });
            before = after;
        }

        _perHourAfter = (_sums[^1] - Until(_from + TimeSpan.FromHours(ClimateForecast.Reach - LastDay))).Times(1 / LastDay);
    }

    /// <summary>Sums up what a law earns along a forecast.</summary>
    /// <param name="law">The law.</param>
    /// <param name="forecast">The forecast.</param>
    /// <param name="now">What the surface is exposed to at the forecast's beginning.</param>
    /// <param name="otherwise">What it may be exposed to instead, where a probe is missing; those differences stay.</param>
    /// <param name="fading">The time constant with which its difference from the air fades; at zero it is gone at once.</param>
    /// <returns>The projection.</returns>
    public static Projection Along(
        RateLaw law, ClimateForecast forecast, Exposure now, IReadOnlyList<Exposure> otherwise, TimeSpan fading)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        return new Projection(forecast.From, law, hours => PanelAhead.Of(forecast.At(hours, ShareOfBand), now, otherwise, hours > 0 ? Math.Exp(-hours / fading.TotalHours) : 1));
    }

    /// <summary>What is earned from the forecast's beginning to an instant.</summary>
    /// <param name="at">The instant, not before the beginning.</param>
    /// <returns>The progress.</returns>
    public Credit Until(DateTimeOffset at)
    {
        double hours = (at - _from).TotalHours;
        if (hours >= Knots[^1])
        {
            return _sums[^1] + _perHourAfter.Times(hours - Knots[^1]);
        }

        int next = 1;
        while (Knots[next] < hours)
        {
            next++;
        }

        return _sums[next - 1] + (_sums[next] - _sums[next - 1]).Times((hours - Knots[next - 1]) / (Knots[next] - Knots[next - 1]));
    }

    /// <summary>When progress from an instant on reaches an amount.</summary>
    /// <param name="start">The instant, not before the forecast's beginning.</param>
    /// <param name="hours">The amount [reference h].</param>
    /// <param name="pace">The pace.</param>
    /// <param name="farthest">What takes longer is never.</param>
    /// <returns>The instant; null for never.</returns>
    public DateTimeOffset? ReachedAt(DateTimeOffset start, double hours, Pace pace, TimeSpan farthest)
    {
        if (hours <= 0)
        {
            return start;
        }

        double target = Until(start).Of(pace) + hours;
        int next = 1;
        while (next < Knots.Length && _sums[next].Of(pace) < target)
        {
            next++;
        }

        if (next < Knots.Length)
        {
            (double before, double after) = (_sums[next - 1].Of(pace), _sums[next].Of(pace));
            return _from + TimeSpan.FromHours(Knots[next - 1] + ((Knots[next] - Knots[next - 1]) * (target - before) / (after - before)));
        }

        double later = Knots[^1] + ((target - _sums[^1].Of(pace)) / _perHourAfter.Of(pace));
        return later <= farthest.TotalHours ? _from + TimeSpan.FromHours(later) : null;
    }

    /// <summary>The progress that makes up an amount from the forecast's beginning on, with the climate it is earned in.</summary>
    /// <param name="hours">The amount [reference h], 0 or more.</param>
    /// <returns>The progress; null where the forecast does not reach that far.</returns>
    public Credit? Earning(double hours)
    {
        if (!(_sums[^1].Likely >= hours) || ReachedAt(_from, hours, Pace.Likely, TimeSpan.FromHours(ClimateForecast.Reach)) is not { } at)
        {
            return null;
        }

        Credit earned = Until(at);
        return earned.Likely > 0 ? earned.Times(hours / earned.Likely) : null;
    }

    private DateTimeOffset InstantAt(int knot) => _from + TimeSpan.FromHours(Knots[knot]);
}
