using CureWatch.Curing;
using CureWatch.Products;

namespace CureWatch.Forecasting;

/// <summary>What a law is expected to earn along a forecast, summed up once for all coats on it, when one of them asks.</summary>
/// <remarks>
/// The likely pace along the likely climate. The slow and the fast one take at each instant the worst and the best corner of the bounds of
/// panel temperature and vapour pressure. A sum over hours strays less than each of its hours, so the bounds lie closer than those of an instant.
/// </remarks>
public sealed class Projection
{
    /// <summary>Beyond the forecast the mean of its last day [h] goes on.</summary>
    private const double LastDay = 24;

    private readonly RateLaw _law;
    private readonly SurfaceAhead _surface;
    private Credit[]? _sums;

    internal Projection(RateLaw law, SurfaceAhead surface)
    {
        _law = law;
        _surface = surface;
    }

    private static ReadOnlySpan<double> Knots => SurfaceAhead.Knots;

    /// <summary>What is earned from the beginning to each knot.</summary>
    private Credit[] Sums => _sums ??= SumUp();

    private Credit PerHourAfter => (Sums[^1] - Until(_surface.From + TimeSpan.FromHours(ClimateForecast.Reach - LastDay))).Times(1 / LastDay);

    /// <summary>What is earned from the forecast's beginning to an instant.</summary>
    /// <param name="at">The instant, not before the beginning.</param>
    /// <returns>The progress.</returns>
    public Credit Until(DateTimeOffset at)
    {
        double hours = (at - _surface.From).TotalHours;
        if (hours >= Knots[^1])
        {
            return Sums[^1] + PerHourAfter.Times(hours - Knots[^1]);
        }

        int next = 1;
        while (Knots[next] < hours)
        {
            next++;
        }

        return Sums[next - 1] + (Sums[next] - Sums[next - 1]).Times((hours - Knots[next - 1]) / (Knots[next] - Knots[next - 1]));
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
        while (next < Knots.Length && Sums[next].Of(pace) < target)
        {
            next++;
        }

        if (next < Knots.Length)
        {
            (double before, double after) = (Sums[next - 1].Of(pace), Sums[next].Of(pace));
            return _surface.From + TimeSpan.FromHours(Knots[next - 1] + ((Knots[next] - Knots[next - 1]) * (target - before) / (after - before)));
        }

        double later = Knots[^1] + ((target - Sums[^1].Of(pace)) / PerHourAfter.Of(pace));
        return later <= farthest.TotalHours ? _surface.From + TimeSpan.FromHours(later) : null;
    }

    /// <summary>The progress that makes up an amount from the forecast's beginning on, with the climate it is earned in.</summary>
    /// <param name="hours">The amount [reference h], 0 or more.</param>
    /// <returns>The progress; null where the forecast does not reach that far.</returns>
    public Credit? Earning(double hours)
    {
        if (!(Sums[^1].Likely >= hours) || ReachedAt(_surface.From, hours, Pace.Likely, TimeSpan.FromHours(ClimateForecast.Reach)) is not { } at)
        {
            return null;
        }

        Credit earned = Until(at);
        return earned.Likely > 0 ? earned.Times(hours / earned.Likely) : null;
    }

    private Credit[] SumUp()
    {
        var sums = new Credit[Knots.Length];
        (double slow, double fast) = _surface.RatesAt(_law, 0);
        for (int i = 1; i < sums.Length; i++)
        {
            double hours = Knots[i] - Knots[i - 1];
            (double Slow, double Fast) after = _surface.RatesAt(_law, i);
            Credit likely = _surface.Over(_law, i);
            sums[i] = sums[i - 1] + (likely with { Slow = hours * (slow + after.Slow) / 2, Fast = hours * (fast + after.Fast) / 2 });
            (slow, fast) = after;
        }

        return sums;
    }
}
