using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>Integrates a rate law over a segment of climate.</summary>
/// <remarks>
/// Equation: Θ = ∫ k dt, temperature and vapour pressure linear in time; Gauss's rule of three points (<see cref="GaussRule"/>) on pieces
/// halved until in each ln k moves by at most 0.1 and the humidity's logarithm by 0.15. Source (law): the rule's error is the sixth
/// derivative's part of 2016000, here below 1e-9 of the piece. The segment is first split where the water activity crosses a clamp, so that
/// no piece has a kink or a step inside.
/// Edges: where a probe is missing among others, the bounds take the worst of its climates; over a gap they take the envelopes of what may
/// have been (<see cref="GapEnvelope"/>). In the stretch since the newest readings the slow bound of a release earns nothing as long as it is no
/// gap: a car that is ready must not be held again because of what the next reading says, or because it did not come.
/// </remarks>
public static class CureIntegral
{
    private const double LnRateStep = 0.1;
    private const double LnHumidityStep = 0.15;
    private const int StepsPerHalving = 4;

    private static readonly TimeSpan Resolution = TimeSpan.FromMilliseconds(0.1);

    /// <summary>Progress over a whole segment.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="segment">The segment.</param>
    /// <returns>The progress; never negative in any bound.</returns>
    public static Credit Over(RateLaw law, in ClimateSegment segment) => Bound(law, segment, OverSeen(law, segment));

    /// <summary>Progress over a whole segment whose course is known.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="segment">The segment.</param>
    /// <param name="course">Its course.</param>
    /// <returns>The same as without the course, for less work.</returns>
    public static Credit Over(RateLaw law, in ClimateSegment segment, SegmentCourse course) =>
        Bound(law, segment, IsSmooth(law, course) ? Gauss(law, course, segment.Hours) : OverSeen(law, segment));

    private static Credit Bound(RateLaw law, in ClimateSegment segment, Credit credit)
    {
        if (segment.Unseen is { } unseen && unseen.IsGapFor(law.Mechanism))
        {
            return GapEnvelope.Bound(law, segment, unseen, credit);
        }

        foreach (Alternative alternative in segment.Alternatives)
        {
            Credit other = OverSeen(law, segment with { AtStart = alternative.AtStart, AtEnd = alternative.AtEnd });
            other = alternative.IsContradicted ? other : StandIn.Worth(law, segment, alternative, other);
            credit = credit with { Slow = Math.Min(credit.Slow, other.Slow), Fast = Math.Max(credit.Fast, other.Fast) };
        }

        return segment.IsUnconfirmed && law.IsForRelease ? credit with { Slow = 0 } : credit;
    }

    /// <summary>When progress over a segment reaches an amount.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="segment">The segment.</param>
    /// <param name="hours">The amount [reference h], not above what the whole segment earns; 0 and below are reached at its start.</param>
    /// <param name="pace">The pace.</param>
    /// <returns>The instant, to a tenth of a millisecond.</returns>
    public static DateTimeOffset ReachedAt(RateLaw law, in ClimateSegment segment, double hours, Pace pace)
    {
        if (segment.Unseen is { } unseen && unseen.IsGapFor(law.Mechanism))
        {
            ClimateSegment gap = segment;
            return ReachedInGap(law, segment, unseen, hours, pace, (from, to) => Over(law, gap.Between(from, to)));
        }

        return ReachedInPiece(law, segment, hours, pace);
    }

    /// <summary>When progress over a gap reaches an amount.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="segment">The segment, all of it inside the gap.</param>
    /// <param name="unseen">The readings around it.</param>
    /// <param name="hours">The amount [reference h], not above what the whole segment earns.</param>
    /// <param name="pace">The pace.</param>
    /// <param name="over">What a part of it earns: whoever asks for the same parts again need not have them integrated again.</param>
    /// <returns>The instant, to a tenth of a millisecond.</returns>
    internal static DateTimeOffset ReachedInGap(
        RateLaw law, in ClimateSegment segment, Unseen unseen, double hours, Pace pace, Func<DateTimeOffset, DateTimeOffset, Credit> over)
    {
        DateTimeOffset from = segment.Start;
        foreach (DateTimeOffset end in GapEnvelope.PieceEnds(segment, unseen).Where(e => e > from))
        {
            double earned = over(from, end).Of(pace);
            if (earned >= hours || end == segment.End)
            {
                return ReachedInPiece(law, segment.Between(from, end), Math.Min(hours, earned), pace);
            }

            hours -= earned;
            from = end;
        }

        return segment.End;
    }

    private static DateTimeOffset ReachedInPiece(RateLaw law, in ClimateSegment segment, double hours, Pace pace)
    {
        if (hours <= 0)
        {
            return segment.Start;
        }

        // The false position of Illinois: an end that stays where it is counts half, so that both ends close in. Where nothing is earned for long, halving does.
        DateTimeOffset early = segment.Start, late = segment.End;
        double lacking = hours, over = Over(law, segment).Of(pace) - hours;
        bool? wasEarly = null;
        for (int step = 1; (late - early).Ticks > Resolution.Ticks; step++)
        {
            double least = Math.Min(0.5, Resolution / (late - early));
            double share = step % StepsPerHalving == 0 ? 0.5 : Math.Clamp(lacking / (lacking + over), least, 1 - least);
            DateTimeOffset between = early + ((late - early) * share);
            double beyond = Over(law, segment.Between(segment.Start, between)).Of(pace) - hours;
            (early, lacking, late, over) = beyond < 0
                ? (between, -beyond, late, wasEarly == true ? over / 2 : over)
                : (early, wasEarly == false ? lacking / 2 : lacking, between, beyond);
            wasEarly = beyond < 0;
        }

        return late;
    }

    /// <summary>Whether one piece does for the segment: no clamp can be met on the way, and the rate moves little.</summary>
    private static bool IsSmooth(RateLaw law, SegmentCourse course)
    {
        if (law.ByDeficit)
        {
            return false;
        }

        double reach = course.ActivityReach;
        return !ClampCrossings.MayBeBetween(law, course.Start.LnActivity, course.End.LnActivity, reach)
            && IsShort(law, EnergyReach(law, course.Start.Exposure, course.End.Exposure), reach);
    }

    private static Credit OverSeen(RateLaw law, in ClimateSegment segment) =>
        ClampCrossings.MayBeIn(law, segment) ? OverPieces(law, segment) : OverPiece(law, segment, 0, 1);

    private static Credit OverPieces(RateLaw law, in ClimateSegment segment)
    {
        Credit sum = default;
        double reached = 0;
        foreach (double end in ClampCrossings.Shares(law, segment))
        {
            sum += OverPiece(law, segment, reached, end);
            reached = end;
        }

        return sum;
    }

    private static Credit OverPiece(RateLaw law, in ClimateSegment segment, double from, double to)
    {
        if (to <= from)
        {
            return default;
        }

        Exposure start = segment.AtStart.Towards(segment.AtEnd, from);
        Exposure end = segment.AtStart.Towards(segment.AtEnd, to);
        double humidityReach = law.HumidityReach(start.PanelKelvins, start.VapourPressurePa, end.PanelKelvins, end.VapourPressurePa);
        if (IsShort(law, EnergyReach(law, start, end), humidityReach))
        {
            return Gauss(law, segment, from, to, segment.Hours * (to - from));
        }

        double middle = (from + to) / 2;
        return OverPiece(law, segment, from, middle) + OverPiece(law, segment, middle, to);
    }

    private static bool IsShort(RateLaw law, double energyReach, double humidityReach) =>
        humidityReach <= LnHumidityStep && energyReach + (law.HumidityExponent * humidityReach) <= LnRateStep;

    private static double EnergyReach(RateLaw law, Exposure start, Exposure end) =>
        law.ActivationEnergyJmol / RateLaw.GasConstant * Math.Abs((1 / end.PanelKelvins) - (1 / start.PanelKelvins));

    private static Credit Gauss(RateLaw law, in ClimateSegment segment, double from, double to, double hours)
    {
        double length = to - from;
        return Gauss(
            Rate(law, segment, from + (length * GaussRule.Early)),
            Rate(law, segment, from + (length * GaussRule.Middle)),
            Rate(law, segment, from + (length * GaussRule.Late)),
            hours);
    }

    private static Credit Gauss(RateLaw law, SegmentCourse course, double hours) =>
        Gauss(Rate(law, course.Early), Rate(law, course.Middle), Rate(law, course.Late), hours);

    private static Credit Gauss((Credit PerHour, bool SlowEarns) first, (Credit PerHour, bool SlowEarns) second, (Credit PerHour, bool SlowEarns) third, double hours)
    {
        (Credit early, Credit middle, Credit late) = (first.PerHour, second.PerHour, third.PerHour);
        double likely = hours * GaussRule.Mean(early.Likely, middle.Likely, late.Likely);
        return new Credit(
            second.SlowEarns ? likely : 0,
            likely,
            hours * GaussRule.Mean(early.Fast, middle.Fast, late.Fast),
            hours * GaussRule.Mean(early.WeightedX, middle.WeightedX, late.WeightedX),
            hours * GaussRule.Mean(early.WeightedY, middle.WeightedY, late.WeightedY),
            hours * GaussRule.Mean(early.WeightedAirKelvins, middle.WeightedAirKelvins, late.WeightedAirKelvins),
            hours * GaussRule.Mean(early.WeightedColderK, middle.WeightedColderK, late.WeightedColderK));
    }

    private static (Credit PerHour, bool SlowEarns) Rate(RateLaw law, in ClimateSegment segment, double share)
    {
        Exposure exposure = segment.AtStart.Towards(segment.AtEnd, share);
        return Rate(law, exposure, law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa));
    }

    private static (Credit PerHour, bool SlowEarns) Rate(RateLaw law, CoursePoint point) =>
        Rate(law, point.Exposure, law.TermsAt(point.Exposure.PanelKelvins, point.LnActivity));

    private static (Credit PerHour, bool SlowEarns) Rate(RateLaw law, Exposure exposure, RateTerms terms)
    {
        double likely = law.Likely(terms);
        double fast = terms.YFast > terms.Y ? law.Fast(terms) : likely;
        var perHour = new Credit(0, likely, fast, likely * terms.X, likely * terms.Y, likely * exposure.AirKelvins, likely * exposure.ColderK);
        return (perHour, terms.SlowEarns);
    }
}
