using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Panels;

namespace CureWatch.TimeWindows;

/// <summary>One clock of one coat: what its record says up to the present, and the outlook after.</summary>
/// <param name="Record">The climate lived through, as the clock's law sees it.</param>
/// <param name="Outlook">The climate expected.</param>
/// <param name="Doubt">How far the probes may be off.</param>
public sealed record CoatClock(CureRecord Record, Outlook Outlook, ClimateDoubt Doubt)
{
    /// <summary>The 95th percentile of the standard normal law [1]. Source (law).</summary>
    private const double NinetyFifthPercentile = 1.6448536269514722;

    /// <summary>When a milestone is reached, with its bounds.</summary>
    /// <param name="start">When the clock started.</param>
    /// <param name="milestone">The milestone.</param>
    /// <returns>Earliest by the fast bound, latest by the slow one.</returns>
    /// <remarks>
    /// Equation: Θ = D · exp(±1.645 σ), σ² the sheet's variance of ln hours and the probes' variance of ln k, both at the coat's own mean
    /// climate. Source (law): first-order propagation of normal errors (GUM, eq. 10).
    /// </remarks>
    public TimeBounds ReachedAt(TimeBounds start, Milestone milestone)
    {
        if ((start.Likely ?? start.Earliest) is not { } likelyStart)
        {
            return new TimeBounds(null, null, null);
        }

        double factor = Factor(MeanOver(likelyStart, milestone.ReferenceHours), milestone);
        return new TimeBounds(
            ReachedAt(start.Earliest, milestone.ReferenceHours / factor, Pace.Fast),
            ReachedAt(start.Likely, milestone.ReferenceHours, Pace.Likely),
            ReachedAt(start.Latest, milestone.ReferenceHours * factor, Pace.Slow));
    }

    /// <summary>The mean climate in which a milestone is reached, lived through and expected.</summary>
    /// <param name="start">When the clock started.</param>
    /// <param name="milestone">The milestone; its time above 0.</param>
    /// <returns>The mean; null where the clock never starts in this climate.</returns>
    public MeanClimate? MeanUntil(TimeBounds start, Milestone milestone) =>
        (start.Likely ?? start.Earliest) is { } from ? MeanOver(from, milestone.ReferenceHours) : null;

    /// <summary>Progress so far, with its bounds.</summary>
    /// <param name="start">When the clock started.</param>
    /// <param name="law">How sure the sheet is of the law; its time is left out.</param>
    /// <returns>The progress; 0 where the clock has not started.</returns>
    public ReferenceHours EarnedSince(TimeBounds start, Milestone law)
    {
        Credit likely = EarnedSince(start.Likely);
        if (likely.Likely <= 0)
        {
            return default;
        }

        double factor = Factor(MeanClimate.Of(likely), law);
        return new ReferenceHours(EarnedSince(start.Latest).Slow / factor, likely.Likely, EarnedSince(start.Earliest).Fast * factor);
    }

    private double Factor(MeanClimate mean, Milestone milestone) => Math.Exp(
        NinetyFifthPercentile * Math.Sqrt(milestone.VarianceOfLnHours(mean.X, mean.Y) + mean.VarianceOfLnRate(Record.Law, Doubt)));

    private Credit EarnedSince(DateTimeOffset? start) =>
        start is { } from && from < Record.End ? Record.Between(from, Record.End) : default;

    private DateTimeOffset? ReachedAt(DateTimeOffset? start, double hours, Pace pace)
    {
        if (start is not { } from)
        {
            return null;
        }

        if (from >= Record.End)
        {
            return Outlook.ReachedAt(Record.Law, from, hours, pace);
        }

        return Record.ReachedAt(from, hours, pace)
            ?? Outlook.ReachedAt(Record.Law, Record.End, hours - Record.Between(from, Record.End).Of(pace), pace);
    }

    private MeanClimate MeanOver(DateTimeOffset start, double hours)
    {
        DateTimeOffset end = start < Record.End ? Record.ReachedAt(start, hours, Pace.Likely) ?? Record.End : start;
        Credit lived = Record.Between(start, end);
        return MeanClimate.Of(lived + Outlook.Earning(Record.Law, Math.Max(0, hours - lived.Likely)));
    }
}

/// <summary>Cure progress: hours at the sheet's reference climate.</summary>
/// <param name="Low">5 % may be below [h].</param>
/// <param name="Likely">As likely less as more [h].</param>
/// <param name="High">5 % may be above [h].</param>
/// <remarks>The default is no progress.</remarks>
public readonly record struct ReferenceHours(double Low, double Likely, double High);
