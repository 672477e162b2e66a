using System.Collections.Immutable;
using CureWatch.Products;

namespace CureWatch.Forecasting;

/// <summary>How something runs through the day, and how long it stays off that course once it is.</summary>
/// <param name="Level">Its mean, in the unit of what was measured.</param>
/// <param name="Cosine24">Amplitude of the daily wave that peaks at midnight UTC.</param>
/// <param name="Sine24">Amplitude of the daily wave that peaks at six.</param>
/// <param name="Cosine12">Amplitude of the half-day wave that peaks at midnight UTC.</param>
/// <param name="Sine12">Amplitude of the half-day wave that peaks at three.</param>
/// <param name="Persistence">Share of a departure that is left after an hour [1], 0 to 0.995.</param>
/// <param name="Momentum">Share of its change over the last hour that goes on in the next [1], −0.5 to 0.9.</param>
/// <remarks>
/// Equation: y(t) = level + Σ waves + r(t), r(t + 1 h) = ρ r(t) + μ (r(t) − r(t − 1 h)) + noise. Weighted least squares over the last 14 days,
/// weights halving in five days, with a ridge of 1 on the waves; ρ raised by (1 + 3ρ)/n for the bias that taking the mean from the same hours
/// makes. Source (law): a second-order autoregression on a harmonic mean; the bias by Marriott and Pope 1954, from memory. Source (choice): days,
/// half-life and ridge.
/// </remarks>
public sealed record DailyCourse(
    double Level, double Cosine24, double Sine24, double Cosine12, double Sine12, double Persistence, double Momentum)
{
    /// <summary>How far back is looked [h].</summary>
    public const int Window = 14 * 24;

    /// <summary>Fewest hours from the first to the last for a course to be told from the weather of a day [h]. Source (choice).</summary>
    public const int LeastSpan = 72;

    /// <summary>Fewest hours measured among them. Source (choice): half of them.</summary>
    private const int LeastHours = 36;
    private const int Unknowns = 5, HoursADay = 24;
    private const double HalfLifeHours = 5 * 24;
    private const double Ridge = 1;
    private const double MostPersistent = 0.995;
    private const double LeastMomentum = -0.5, MostMomentum = 0.9;
    private const double Daily = 2 * Math.PI / 24;

    /// <summary>The waves at the full hours, at which means of hours stand: nearly all that is asked for.</summary>
    private static readonly ImmutableArray<double[]> FullHours = [.. Enumerable.Range(0, HoursADay).Select(h => Waves(h))];

    /// <summary>What an hour weighs by its age [h].</summary>
    private static readonly ImmutableArray<double> Weights = [.. Enumerable.Range(0, Window).Select(age => Math.Pow(0.5, age / HalfLifeHours))];

    /// <summary>Fits the course of the last days.</summary>
    /// <param name="past">The hours measured, in order, each once, within <see cref="Window"/> of the last.</param>
    /// <returns>The course; null where they are too few.</returns>
    /// <remarks>The waves are the same every day, so what is weighed is summed up by the hour of the day first.</remarks>
    public static DailyCourse? Fit(ReadOnlySpan<HourValue> past)
    {
        if (past.Length < LeastHours || past[^1].Hour - past[0].Hour < LeastSpan)
        {
            return null;
        }

        long newest = past[^1].Hour;
        Span<double> weightOf = stackalloc double[HoursADay], weighedOf = stackalloc double[HoursADay];
        foreach (HourValue hour in past)
        {
            int ofDay = OfDay(hour.Hour);
            double weight = Weights[(int)(newest - hour.Hour)];
            weightOf[ofDay] += weight;
            weighedOf[ofDay] += weight * hour.Value;
        }

        var right = new double[Unknowns];
        var matrix = new double[Unknowns, Unknowns];
        for (int hour = 0; hour < HoursADay; hour++)
        {
            double[] row = FullHours[hour];
            for (int i = 0; i < Unknowns; i++)
            {
                right[i] += weighedOf[hour] * row[i];
                for (int j = 0; j <= i; j++)
                {
                    matrix[i, j] += weightOf[hour] * row[i] * row[j];
                }
            }
        }

        for (int i = 1; i < Unknowns; i++)
        {
            matrix[i, i] += Ridge;
        }

        double[] found = new Cholesky(matrix).Solve(right);
        return new DailyCourse(found[0], found[1], found[2], found[3], found[4], 0, 0).Fading(past);
    }

    /// <summary>What is usual at a time of the day.</summary>
    /// <param name="hour">Hours since 1970-01-01T00:00Z; a mean of an hour stands at its number.</param>
    /// <returns>The usual value.</returns>
    public double At(double hour) => Along(double.IsInteger(hour) ? FullHours[OfDay((long)hour)] : Waves(hour % HoursADay));

    /// <summary>What is left of a departure some time later.</summary>
    /// <param name="now">The departure.</param>
    /// <param name="change">How it changed over the last hour.</param>
    /// <param name="hours">How much later [h], 0 or more; within an hour straight.</param>
    /// <returns>The departure then.</returns>
    public double Left(double now, double change, double hours)
    {
        for (; hours >= 1; hours--)
        {
            (now, change) = AnHourOn(now, change);
        }

        return hours > 0 ? now + (hours * (AnHourOn(now, change).Left - now)) : now;
    }

    /// <summary>What is left of a departure an hour later, and how it changed meanwhile.</summary>
    /// <param name="now">The departure.</param>
    /// <param name="change">How it changed over the last hour.</param>
    /// <returns>The departure then, and its change.</returns>
    internal (double Left, double Change) AnHourOn(double now, double change)
    {
        double next = (Persistence * now) + (Momentum * change);
        return (next, next - now);
    }

    private static int OfDay(long hour) => (int)(hour % HoursADay is var ofDay && ofDay < 0 ? ofDay + HoursADay : ofDay);

    private double Along(double[] waves) =>
        Level + (Cosine24 * waves[1]) + (Sine24 * waves[2]) + (Cosine12 * waves[3]) + (Sine12 * waves[4]);

    private static double[] Waves(double hour)
    {
        (double sine, double cosine) = Math.SinCos(Daily * hour);
        return [1, cosine, sine, (2 * cosine * cosine) - 1, 2 * sine * cosine];
    }

    /// <summary>The course with what its departures did: two unknowns, of three hours that follow each other.</summary>
    private DailyCourse Fading(ReadOnlySpan<HourValue> past)
    {
        Span<double> usual = stackalloc double[HoursADay];
        for (int hour = 0; hour < HoursADay; hour++)
        {
            usual[hour] = Along(FullHours[hour]);
        }

        double rr = 0, rd = 0, dd = 0, ry = 0, dy = 0, sum = 0, squares = 0, twoBefore = 0, oneBefore = 0;
        for (int i = 0; i < past.Length; i++)
        {
            double y = past[i].Value - usual[OfDay(past[i].Hour)], r = oneBefore, d = r - twoBefore;
            (twoBefore, oneBefore) = (r, y);
            if (i < 2 || past[i].Hour - past[i - 2].Hour != 2)
            {
                continue;
            }

            double weight = Weights[(int)(past[^1].Hour - past[i].Hour)];
            (rr, rd, dd) = (rr + (weight * r * r), rd + (weight * r * d), dd + (weight * d * d));
            (ry, dy) = (ry + (weight * r * y), dy + (weight * d * y));
            (sum, squares) = (sum + weight, squares + (weight * weight));
        }

        double determinant = (rr * dd) - (rd * rd);
        if (!(determinant > 1e-12 * rr * dd) || !(rr > 0))
        {
            return this;
        }

        double raw = ((ry * dd) - (dy * rd)) / determinant;
        return this with
        {
            Persistence = Math.Clamp(raw + ((1 + (3 * raw)) * squares / (sum * sum)), 0, MostPersistent),
            Momentum = Math.Clamp(((dy * rr) - (ry * rd)) / determinant, LeastMomentum, MostMomentum),
        };
    }
}
