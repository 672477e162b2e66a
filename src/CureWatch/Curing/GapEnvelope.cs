using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>The least and the most a coat may have cured where nobody measured.</summary>
/// <remarks>
/// Equation: Θ = ∫ min k dt and ∫ max k dt over the climates that may have been (<see cref="GapClimate"/>), by Gauss's rule on pieces that
/// end where an envelope turns or the slow bound stops earning.
/// Edges: in a gap that is still open the slow bound of a release earns only where no probe at all is heard, from half an hour on, when it is no
/// pause between two readings any more, to six hours. What it earned while the gap was open stays when the next reading comes, however far
/// that one lies: a car that was ruled ready is not taken back by it. So the climate before such a gap also stands for it in the mean; for one
/// that earned nothing while it was open, the line between its readings does. What either leaves open is in the bounds (<see cref="StandIn"/>).
/// Away from any probe the slow bound earns nothing.
/// </remarks>
public static class GapEnvelope
{
    /// <summary>How long an open gap earns the slow bound anything [6 h]. Source (choice): what a bay was six hours ago says little.</summary>
    public static readonly TimeSpan LongestEarning = TimeSpan.FromHours(6);

    /// <summary>Finds the bounds of progress over a gap.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="segment">The segment, all of it inside the gap.</param>
    /// <param name="unseen">The readings around it.</param>
    /// <param name="straight">Progress straight between them.</param>
    /// <returns>The progress; its bounds in order.</returns>
    public static Credit Bound(RateLaw law, in ClimateSegment segment, Unseen unseen, Credit straight)
    {
        var climate = GapClimate.Of(segment, unseen);
        GapClimate? open = unseen.IsDark || segment.IsUnconfirmed ? GapClimate.WhileOpen(segment, unseen) : null;
        List<DateTimeOffset> borders = [segment.Start, .. PieceEnds(segment, unseen, climate.Turns().Concat(open?.Turns() ?? []))];
        Func<DateTimeOffset, StandIn> standIn = open is null ? StandIn.Along(law, segment) : StandIn.Held(law, unseen.Before);
        double slow = SlowOver(borders, SlowRates(law, segment, unseen, climate, open, standIn));
        double fast = FastOver(borders, at => climate.At(at).Fast(standIn(at)));
        double likely = Math.Max(straight.Likely, slow);
        if (open is null)
        {
            return straight.Times(likely / straight.Likely) with { Slow = slow, Fast = Math.Max(likely, fast) };
        }

        Exposure before = unseen.Before;
        RateTerms terms = law.Terms(before.PanelKelvins, before.VapourPressurePa);
        return new Credit(
            slow, likely, Math.Max(likely, fast), likely * terms.X, likely * terms.Y, likely * before.AirKelvins, likely * segment.AtStart.ColderK);
    }

    /// <summary>What the slow bound may follow: the highest of these rates, each of which may be counted on.</summary>
    private static Func<DateTimeOffset, double>[] SlowRates(
        RateLaw law, in ClimateSegment segment, Unseen unseen, GapClimate climate, GapClimate? open, Func<DateTimeOffset, StandIn> standIn)
    {
        if (unseen.IsElsewhere)
        {
            return [];
        }

        Func<DateTimeOffset, double>? closed = segment.IsUnconfirmed ? null : at => climate.At(at).Slow(standIn(at));
        Func<DateTimeOffset, double>? earned = open is not null && (unseen.IsDark || !law.IsForRelease)
            ? OpenRate(unseen, open, standIn(segment.Start))
            : null;
        return [.. new[] { closed, earned }.OfType<Func<DateTimeOffset, double>>()];
    }

    private static Func<DateTimeOffset, double> OpenRate(Unseen unseen, GapClimate open, StandIn before)
    {
        DateTimeOffset since = unseen.Since;
        DateTimeOffset from = before.Law.IsForRelease ? since + Source.CureLimit : DateTimeOffset.MinValue;
        DateTimeOffset to = since + LongestEarning;
        return at => at >= from && at <= to ? open.At(at).Slow(before) : 0;
    }

    /// <summary>Where the pieces of a gap end.</summary>
    /// <param name="segment">The segment, all of it inside the gap.</param>
    /// <param name="unseen">The readings around it.</param>
    /// <returns>The instants, in order, the segment's end the last of them.</returns>
    public static IReadOnlyList<DateTimeOffset> PieceEnds(in ClimateSegment segment, Unseen unseen) =>
        PieceEnds(segment, unseen, GapClimate.Of(segment, unseen).Turns());

    /// <summary>
    /// A quarter of an hour apart near the readings, ever farther apart far from them on either side, so that a part of a segment is integrated
    /// as the whole is, and a tap of a year ago costs no more than one of yesterday. Source (choice): ln k moves by a tenth in each.
    /// </summary>
    private static List<DateTimeOffset> PieceEnds(in ClimateSegment segment, Unseen unseen, IEnumerable<DateTimeOffset> turns)
    {
        DateTimeOffset since = unseen.Since;
        var ends = new List<DateTimeOffset>();
        for (double hours = NextHours((segment.Start - since).TotalHours);
            since + TimeSpan.FromHours(hours) is var at && at < segment.End;
            hours = NextHours(hours))
        {
            ends.Add(at);
        }

        DateTimeOffset[] limits = [since + Source.CureLimit, since + LongestEarning];
        (DateTimeOffset start, DateTimeOffset end) = (segment.Start, segment.End);
        ends.AddRange(turns.Concat(limits.Where(l => l > start && l < end)));
        ends.Add(end);
        ends.Sort();
        return ends;
    }

    private static double NextHours(double hours)
    {
        double far = Math.Abs(hours);
        double step = far < 4 ? 0.25 : far < 16 ? 1 : far < 64 ? 8 : Math.Pow(2, Math.Floor(Math.Log2(far)) - 3);
        return (Math.Floor((hours / step) + 1e-6) + 1) * step;
    }

    private static double FastOver(List<DateTimeOffset> borders, Func<DateTimeOffset, double> rate)
    {
        double sum = 0;
        for (int i = 1; i < borders.Count; i++)
        {
            sum += OverPiece(borders[i - 1], borders[i], rate);
        }

        return sum;
    }

    private static double SlowOver(List<DateTimeOffset> borders, Func<DateTimeOffset, double>[] rates)
    {
        double sum = 0;
        for (int i = 1; i < borders.Count && rates.Length > 0; i++)
        {
            (DateTimeOffset from, DateTimeOffset to) = (borders[i - 1], borders[i]);
            if (from == to)
            {
                continue;
            }

            // A limit of the earning may lie on a border: what counts is inside.
            DateTimeOffset first = from.AddTicks(1), last = to.AddTicks(-1);
            foreach (DateTimeOffset end in rates.Select(r => Turn(first, last, r)).OfType<DateTimeOffset>().Order().Append(to))
            {
                sum += OverPiece(from, end, at => rates.Max(r => r(at)));
                from = end;
            }
        }

        return sum;
    }

    /// <summary>Where a rate starts or stops to be above 0; null where it does neither.</summary>
    private static DateTimeOffset? Turn(DateTimeOffset first, DateTimeOffset last, Func<DateTimeOffset, double> rate)
    {
        bool earns = rate(first) > 0;
        if (rate(last) > 0 == earns)
        {
            return null;
        }

        while ((last - first).Ticks > TimeSpan.TicksPerMillisecond)
        {
            DateTimeOffset middle = first + ((last - first) / 2);
            (first, last) = rate(middle) > 0 == earns ? (middle, last) : (first, middle);
        }

        return last;
    }

    private static double OverPiece(DateTimeOffset from, DateTimeOffset to, Func<DateTimeOffset, double> rate)
    {
        TimeSpan length = to - from;
        return length <= TimeSpan.Zero
            ? 0
            : length.TotalHours * GaussRule.Mean(
                rate(from + (length * GaussRule.Early)), rate(from + (length * GaussRule.Middle)), rate(from + (length * GaussRule.Late)));
    }
}
