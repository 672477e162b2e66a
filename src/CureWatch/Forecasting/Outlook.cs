using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Forecasting;

/// <summary>What a coat's climate is expected to be from the present on: what a forecast says, or where there is none yet, what it is now.</summary>
/// <param name="From">The present.</param>
/// <param name="Held">The climate at present, expected to last.</param>
/// <param name="Otherwise">What it may be instead, where a probe is missing among others; empty where none is.</param>
/// <param name="Ahead">What the law earns along the forecast of the bay; null where nothing can be forecast yet, and the climate is held.</param>
/// <remarks>This is the one place that looks ahead.</remarks>
public sealed record Outlook(DateTimeOffset From, Exposure Held, ImmutableArray<Exposure> Otherwise, Projection? Ahead = null)
{
    /// <summary>Whether probes contradict each other, so that it may have been otherwise all along.</summary>
    public bool IsContradicted { get; init; }

    /// <summary>
    /// What would be expected if that were measured now which a gap, or a probe that stands still, may have become; empty where the present is known.
    /// </summary>
    public ImmutableArray<Outlook> MayBe { get; init; } = [];

    /// <summary>Since when nobody knows what is supposed here; null where it is known.</summary>
    public DateTimeOffset? UnknownSince { get; init; }

    /// <summary>
    /// Whether nobody measured it. Held, such a climate stalls no cure for good: where the slow pace never got there, it does at the rate of the driest or
    /// the moistest that the law follows. Source (choice): nobody knows that the worst is true, and less that it lasts.
    /// </summary>
    public bool IsSupposed => UnknownSince is not null;

    /// <summary>Ten years and a week: what takes longer is never. Source (choice).</summary>
    private static readonly TimeSpan Farthest = TimeSpan.FromDays(3660);

    /// <summary>When progress from an instant on is expected to reach an amount.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="start">The instant, not before the present.</param>
    /// <param name="hours">The amount [reference h].</param>
    /// <param name="pace">The pace.</param>
    /// <returns>The instant; null where this climate never gets there, or not within ten years.</returns>
    public DateTimeOffset? ReachedAt(RateLaw law, DateTimeOffset start, double hours, Pace pace)
    {
        return Ahead is not null
            ? Ahead.ReachedAt(start, hours, pace, Farthest)
            : HeldUntil(law, start, hours, pace) ?? (IsSupposed ? HeldUntil(law, start, hours, Pace.Likely) : null);
    }

    private DateTimeOffset? HeldUntil(RateLaw law, DateTimeOffset start, double hours, Pace pace)
    {
        double rate = Rate(law, Held, pace);
        foreach (Exposure other in Otherwise)
        {
            rate = pace switch
            {
                Pace.Slow => Math.Min(rate, Rate(law, other, pace)),
                Pace.Likely => rate,
                _ => Math.Max(rate, Rate(law, other, pace)),
            };
        }

        double needed = Math.Max(0, hours) / rate;
        return needed <= Farthest.TotalHours ? start + TimeSpan.FromHours(needed) : null;
    }

    /// <summary>The progress expected to make up an amount, with the climate it is earned in.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="hours">The amount [reference h], 0 or more.</param>
    /// <returns>The progress, as likely as the climate.</returns>
    public Credit Earning(RateLaw law, double hours)
    {
        if (hours > 0 && Ahead?.Earning(hours) is { } forecast)
        {
            return forecast;
        }

        return EarningIn(Held, law, hours);
    }

    /// <summary>The progress that makes up an amount in a climate that is held.</summary>
    /// <param name="exposure">The climate.</param>
    /// <param name="law">The rate law.</param>
    /// <param name="hours">The amount [reference h], 0 or more.</param>
    /// <returns>The progress.</returns>
    public static Credit EarningIn(Exposure exposure, RateLaw law, double hours)
    {
        RateTerms terms = law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa);
        return new Credit(hours, hours, hours, hours * terms.X, hours * terms.Y, hours * exposure.AirKelvins, hours * exposure.ColderK);
    }

    private static double Rate(RateLaw law, Exposure exposure, Pace pace)
    {
        RateTerms terms = law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa);
        return pace switch
        {
            Pace.Slow => terms.SlowEarns ? law.Likely(terms) : 0,
            Pace.Likely => law.Likely(terms),
            _ => law.Fast(terms),
        };
    }
}
