using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>Integrates a rate law over a segment of climate.</summary>
/// <remarks>
/// Equation: Θ = ∫ k dt, temperature and vapour pressure linear in time; Simpson's rule on pieces halved until ln k moves by at most 0.1
/// in each. Source (law): the rule's error is (0.1)⁴/2880 of the piece, about 4e-8. The segment is first split where the water activity
/// crosses a clamp, so that no piece has a kink or a step inside.
/// Edges: where a probe is missing among others, the bounds take the worst of its climates; over a gap the slow bound earns nothing and
/// the fast bound the envelope of what may have been (<see cref="GapEnvelope"/>). Since the newest readings the slow bound of cure earns
/// nothing either: a car that is ready must not be held again because the next reading did not come.
/// </remarks>
public static class CureIntegral
{
    private const double LnRateStep = 0.1;

    /// <summary>Parts of a segment that are each looked through for one crossing. Source (choice).</summary>
    private const int SplitLooks = 16;

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
        Bound(law, segment, IsSmooth(law, course) ? Simpson(law, course, segment.Hours) : OverSeen(law, segment));

    private static Credit Bound(RateLaw law, in ClimateSegment segment, Credit credit)
    {
        foreach (Alternative alternative in segment.Alternatives)
        {
            Credit other = OverSeen(law, segment with { AtStart = alternative.AtStart, AtEnd = alternative.AtEnd });
            credit = credit with { Slow = Math.Min(credit.Slow, other.Slow), Fast = Math.Max(credit.Fast, other.Fast) };
        }

        if (segment.IsUnconfirmed && law.Mechanism == Mechanism.Cure)
        {
            credit = credit with { Slow = 0 };
        }

        return segment.Unseen is { } unseen && unseen.IsGapFor(law.Mechanism)
            ? credit with { Slow = 0, Fast = Math.Max(credit.Fast, GapEnvelope.Fast(law, segment, unseen)) }
            : credit;
    }

    /// <summary>When progress over a segment reaches an amount.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="segment">The segment.</param>
    /// <param name="hours">The amount [reference h], not above what the whole segment earns; 0 and below are reached at its start.</param>
    /// <param name="pace">The pace.</param>
    /// <returns>The instant, to a tenth of a millisecond.</returns>
    public static DateTimeOffset ReachedAt(RateLaw law, in ClimateSegment segment, double hours, Pace pace)
    {
        if (hours <= 0)
        {
            return segment.Start;
        }

        DateTimeOffset early = segment.Start;
        DateTimeOffset late = segment.End;
        double lacking = hours;
        double over = Over(law, segment).Of(pace) - hours;
        for (bool halve = false; (late - early).Ticks > Resolution.Ticks; halve = !halve)
        {
            double share = halve ? 0.5 : Math.Clamp(lacking / (lacking + over), 0.02, 0.98);
            DateTimeOffset between = early + ((late - early) * share);
            double beyond = Over(law, segment.Between(segment.Start, between)).Of(pace) - hours;
            (early, lacking, late, over) = beyond < 0 ? (between, -beyond, late, over) : (early, lacking, between, beyond);
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
        return !MeetsClamp(law, course.Start.LnActivity, course.End.LnActivity, reach)
            && EnergyReach(law, course.Start.Exposure, course.End.Exposure) + (law.HumidityExponent * reach) <= LnRateStep;
    }

    private static Credit OverSeen(RateLaw law, in ClimateSegment segment) =>
        MayCrossClamp(law, segment) ? OverPieces(law, segment) : OverPiece(law, segment, 0, 1);

    private static bool MayCrossClamp(RateLaw law, in ClimateSegment segment)
    {
        double reach = law.HumidityReach(
            segment.AtStart.PanelKelvins, segment.AtStart.VapourPressurePa, segment.AtEnd.PanelKelvins, segment.AtEnd.VapourPressurePa);
        double start = law.HumidityLevel(segment.AtStart.PanelKelvins, segment.AtStart.VapourPressurePa);
        double end = law.HumidityLevel(segment.AtEnd.PanelKelvins, segment.AtEnd.VapourPressurePa);
        return MeetsClamp(law, start, end, reach);
    }

    private static bool MeetsClamp(RateLaw law, double start, double end, double reach)
    {
        foreach (double clamp in law.Clamps)
        {
            if (clamp >= Math.Min(start, end) - reach && clamp <= Math.Max(start, end) + reach)
            {
                return true;
            }
        }

        return false;
    }

    private static Credit OverPieces(RateLaw law, in ClimateSegment segment)
    {
        var ends = new List<double>();
        for (int look = 1; look <= SplitLooks; look++)
        {
            double from = (look - 1.0) / SplitLooks;
            double to = (double)look / SplitLooks;
            foreach (double clamp in law.Clamps)
            {
                if (Crossing(law, segment, clamp, from, to) is { } crossing)
                {
                    ends.Add(crossing);
                }
            }

            ends.Add(to);
        }

        ends.Sort();
        Credit sum = default;
        double reached = 0;
        foreach (double end in ends)
        {
            sum += OverPiece(law, segment, reached, end);
            reached = end;
        }

        return sum;
    }

    private static double? Crossing(RateLaw law, in ClimateSegment segment, double clamp, double from, double to)
    {
        bool startsAbove = Level(law, segment, from) > clamp;
        if (Level(law, segment, to) > clamp == startsAbove)
        {
            return null;
        }

        for (int halving = 0; halving < 50; halving++)
        {
            double middle = (from + to) / 2;
            if (Level(law, segment, middle) > clamp == startsAbove)
            {
                from = middle;
            }
            else
            {
                to = middle;
            }
        }

        return to;
    }

    private static double Level(RateLaw law, in ClimateSegment segment, double share)
    {
        Exposure exposure = segment.AtStart.Towards(segment.AtEnd, share);
        return law.HumidityLevel(exposure.PanelKelvins, exposure.VapourPressurePa);
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
        if (EnergyReach(law, start, end) + (law.HumidityExponent * humidityReach) <= LnRateStep)
        {
            return Simpson(law, segment, from, to, segment.Hours * (to - from));
        }

        double middle = (from + to) / 2;
        return OverPiece(law, segment, from, middle) + OverPiece(law, segment, middle, to);
    }

    private static double EnergyReach(RateLaw law, Exposure start, Exposure end) =>
        law.ActivationEnergyJmol / RateLaw.GasConstant * Math.Abs((1 / end.PanelKelvins) - (1 / start.PanelKelvins));

    private static Credit Simpson(RateLaw law, in ClimateSegment segment, double from, double to, double hours) =>
        Simpson(Rate(law, segment, from), Rate(law, segment, (from + to) / 2), Rate(law, segment, to), hours);

    private static Credit Simpson(RateLaw law, SegmentCourse course, double hours) =>
        Simpson(Rate(law, course.Start), Rate(law, course.Middle), Rate(law, course.End), hours);

    private static Credit Simpson((Credit PerHour, bool SlowEarns) first, (Credit PerHour, bool SlowEarns) second, (Credit PerHour, bool SlowEarns) third, double hours)
    {
        (Credit start, Credit middle, Credit end) = (first.PerHour, second.PerHour, third.PerHour);
        double sixth = hours / 6;
        double likely = (start.Likely + (4 * middle.Likely) + end.Likely) * sixth;
        return new Credit(
            second.SlowEarns ? likely : 0,
            likely,
            (start.Fast + (4 * middle.Fast) + end.Fast) * sixth,
            (start.WeightedX + (4 * middle.WeightedX) + end.WeightedX) * sixth,
            (start.WeightedY + (4 * middle.WeightedY) + end.WeightedY) * sixth,
            (start.WeightedAirKelvins + (4 * middle.WeightedAirKelvins) + end.WeightedAirKelvins) * sixth);
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
        var perHour = new Credit(0, likely, fast, likely * terms.X, likely * terms.Y, likely * exposure.AirKelvins);
        return (perHour, terms.SlowEarns);
    }
}
