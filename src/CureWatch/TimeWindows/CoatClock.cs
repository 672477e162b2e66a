using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Psychrometrics;

namespace CureWatch.TimeWindows;

/// <summary>One clock of one coat: what its record says up to the present, and the outlook after.</summary>
/// <param name="Record">The climate lived through, as the clock's law sees it.</param>
/// <param name="Outlook">The climate expected.</param>
/// <param name="Doubts">How far the probes may be off, in each place where the coat was measured; the greatest counts. At least one.</param>
public sealed record CoatClock(CureRecord Record, Outlook Outlook, ImmutableArray<ClimateDoubt> Doubts)
{
    /// <summary>How often the time that a width is taken over is itself narrowed down [1]. Source (choice): each makes a percent a hundredth of one.</summary>
    private const int Refinements = 2;

    /// <summary>When the coat was where nobody measures, in order.</summary>
    public ImmutableArray<Spell> Absences { get; init; } = [];

    /// <summary>When a milestone is reached, with its bounds.</summary>
    /// <param name="start">When the clock started.</param>
    /// <param name="milestone">The milestone.</param>
    /// <returns>Earliest by the fast bound, latest by the slow one.</returns>
    /// <remarks>
    /// Equation: Θ = D · exp(±1.645 σ), σ² the sheet's variance of ln hours and the probes' variance of ln k, both at the coat's own mean
    /// climate. Source (law): first-order propagation of normal errors (GUM, eq. 10).
    /// Edges: as long as the coat is where nobody measures, the slow bound would never come. There the latest is when the slow bound of what was measured
    /// and the sheet's slowest row for the rest make up the whole, but never before it would be in the last climate that was measured.
    /// Source (choice): an assumption, which a person has to confirm by looking.
    /// Where nobody knows the present, the bounds are as wide as any that would be told if it were measured now.
    /// </remarks>
    public TimeBounds ReachedAt(TimeBounds start, Milestone milestone) => Outlook.MayBe.Aggregate(
        ReachedAsExpected(start, milestone),
        (reached, other) => reached.WidenedBy((this with { Outlook = other }).ReachedAsExpected(start, milestone)));

    private TimeBounds ReachedAsExpected(TimeBounds start, Milestone milestone)
    {
        if ((start.Likely ?? start.Earliest) is not { } likelyStart)
        {
            return new TimeBounds(null, null, null);
        }

        double factor = FactorOver(likelyStart, milestone.ReferenceHours, milestone, Pace.Likely);
        double colder = ColderOver(start.Latest ?? likelyStart, milestone, factor);
        var reached = new TimeBounds(
            ReachedAt(start.Earliest, milestone.ReferenceHours / FactorOfTheFast(likelyStart, milestone, factor), Pace.Fast),
            ReachedAt(start.Likely, milestone.ReferenceHours, Pace.Likely),
            ReachedAt(start.Latest, milestone.ReferenceHours * FactorOfTheSlow(start, likelyStart, milestone, factor) * colder, Pace.Slow));
        return milestone.Slowest is { } slowest && start.Latest is { } from && Absences is [.., { To: null }]
            ? reached with { Latest = Latest(reached, from, milestone.ReferenceHours * factor * colder, slowest) }
            : reached;
    }

    /// <summary>What was reached before it went away stays so; what the outlook promises is for where somebody measures.</summary>
    private DateTimeOffset Latest(TimeBounds reached, DateTimeOffset start, double hours, TimeSpan slowest)
    {
        if (reached.Latest <= Record.End)
        {
            return reached.Latest.Value;
        }

        DateTimeOffset bySheet = BySlowestRow(start, hours, slowest);
        return ReachedAt(start, hours, Pace.Likely) is { } asBefore && asBefore > bySheet ? asBefore : bySheet;
    }

    /// <summary>Parts of the whole: measured ones at the slow pace, the others at the pace of the slowest row, which lasts.</summary>
    private DateTimeOffset BySlowestRow(DateTimeOffset start, double hours, TimeSpan slowest)
    {
        double lacking = 1;
        DateTimeOffset at = start;
        foreach (Spell absence in Absences)
        {
            if (absence.To <= at)
            {
                continue;
            }

            if (absence.From > at)
            {
                double measured = Record.Between(at, absence.From).Slow / hours;
                if (measured >= lacking)
                {
                    return Record.ReachedAt(at, lacking * hours, Pace.Slow) ?? absence.From;
                }

                (lacking, at) = (lacking - measured, absence.From);
            }

            if (absence.To is { } to)
            {
                double share = (to - at) / slowest;
                if (share >= lacking)
                {
                    break;
                }

                (lacking, at) = (lacking - share, to);
            }
        }

        return at + (lacking * slowest);
    }

    /// <summary>The mean climate in which a milestone is reached, lived through and expected.</summary>
    /// <param name="start">When the clock started.</param>
    /// <param name="milestone">The milestone; its time above 0.</param>
    /// <returns>The mean; null where the clock never starts in this climate.</returns>
    public MeanClimate? MeanUntil(TimeBounds start, Milestone milestone)
    {
        if ((start.Likely ?? start.Earliest) is not { } from)
        {
            return null;
        }

        (Credit lived, double left) = LivedOf(from, milestone.ReferenceHours, Pace.Likely);
        return MeanOf(lived, left);
    }

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

        var mean = MeanClimate.Of(likely);
        double factor = Factor(mean, law);
        double slow = EarnedSince(start.Latest).Slow / (factor * ColderPanel.Longer(Record.Law, mean.ColderK));
        return new ReferenceHours(slow, likely.Likely, EarnedSince(start.Earliest).Fast * factor);
    }

    /// <summary>
    /// A deadline is as unsure as the climate up to itself makes it: what comes after, heard or not, must not move one that has passed.
    /// </summary>
    private double FactorOfTheFast(DateTimeOffset start, Milestone milestone, double factor)
    {
        for (int i = 0; i < Refinements && milestone.ReferenceHours > 0; i++)
        {
            factor = FactorOver(start, milestone.ReferenceHours / factor, milestone, Pace.Fast);
        }

        return factor;
    }

    /// <summary>
    /// What was only likely made is no reason to be surer of a release: as long as nobody knows the present, what the slow bound lacks is still to be made in it.
    /// What it had made before that is over.
    /// </summary>
    private double FactorOfTheSlow(TimeBounds start, DateTimeOffset likelyStart, Milestone milestone, double factor)
    {
        if (Outlook.UnknownSince is not { } since || milestone.ReferenceHours <= 0)
        {
            return factor;
        }

        bool isOver = start.Latest is { } from && LivedUntil(from, milestone.ReferenceHours * factor, Pace.Slow) <= since;
        return isOver ? factor : FactorOver(likelyStart, milestone.ReferenceHours, milestone, Pace.Slow);
    }

    /// <summary>Where the climate may be another, the law may be less sure there: losing a probe must not make a release earlier by that.</summary>
    private double FactorOver(DateTimeOffset start, double hours, Milestone milestone, Pace pace)
    {
        (Credit lived, double left) = LivedOf(start, hours, pace);
        double factor = Factor(MeanOf(lived, left), milestone);
        if (left <= 0)
        {
            return factor;
        }

        foreach (Exposure other in Outlook.IsContradicted ? Outlook.Otherwise.Add(Outlook.Held) : Outlook.Otherwise)
        {
            MeanClimate mean = Outlook.IsContradicted ? MeanClimate.At(Record.Law, other) : MeanClimate.Of(lived + Outlook.EarningIn(other, Record.Law, left));
            factor = Math.Max(factor, Factor(mean, milestone));
        }

        return factor;
    }

    /// <summary>What is reached at once was made in no climate: then it is the present's.</summary>
    private MeanClimate MeanOf(Credit lived, double left) => lived + Outlook.Earning(Record.Law, left) is { Likely: > 0 } made
        ? MeanClimate.Of(made)
        : MeanClimate.At(Record.Law, Outlook.Held);

    private double Factor(MeanClimate mean, Milestone milestone) => Math.Exp(
        NormalDistribution.NinetyFifthPercentile * Math.Sqrt(milestone.VarianceOfLnHours(mean.X, mean.Y) + Doubts.Max(d => mean.VarianceOfLnRate(Record.Law, d))));

    /// <summary>
    /// By how much longer something takes that nobody sees the end of, as far as nobody measured the panel: what was earned by a guess is not made surer by a
    /// probe that comes later.
    /// </summary>
    private double ColderOver(DateTimeOffset start, Milestone milestone, double factor)
    {
        double longer = 1, before = 0;
        for (int i = 0; i < Refinements && longer != before && milestone.Slowest is not null; i++)
        {
            (Credit lived, double left) = LivedOf(start, milestone.ReferenceHours * factor * longer, Pace.Slow);
            (before, longer) = (longer, ColderPanel.Longer(Record.Law, MeanOf(lived, left).ColderK));
        }

        return longer;
    }

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

    /// <summary>When a progress was made at a pace; null where it has still to be.</summary>
    private DateTimeOffset? LivedUntil(DateTimeOffset start, double hours, Pace pace) =>
        start < Record.End ? Record.ReachedAt(start, hours, pace) : null;

    /// <summary>What is made of an amount, as far as it is reached, and what is left of it; what was made weighs as much as the pace counts it.</summary>
    private (Credit Lived, double Left) LivedOf(DateTimeOffset start, double hours, Pace pace)
    {
        DateTimeOffset? reached = LivedUntil(start, hours, pace);
        Credit lived = Record.Between(start, reached ?? Record.End);
        lived = pace != Pace.Likely && lived.Likely > 0 ? lived.Times(lived.Of(pace) / lived.Likely) : lived;
        return (lived, reached is null ? Math.Max(0, hours - lived.Likely) : 0);
    }
}

/// <summary>Cure progress: hours at the sheet's reference climate.</summary>
/// <param name="Low">5 % may be below [h].</param>
/// <param name="Likely">As likely less as more [h].</param>
/// <param name="High">5 % may be above [h].</param>
/// <remarks>The default is no progress.</remarks>
public readonly record struct ReferenceHours(double Low, double Likely, double High);
