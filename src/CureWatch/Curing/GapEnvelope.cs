using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>The least and the most a coat may have cured where nobody measured.</summary>
/// <remarks>
/// Equation: Θ = ∫ min k dt and ∫ max k dt over the climates that may have been (<see cref="GapClimate"/>), by Gauss's rule on pieces that
/// end where an envelope turns or the slow bound stops earning.
/// Edges: in a gap that is still open the slow bound of cure earns only where no probe at all is heard, from half an hour on, when it is no
/// pause between two readings any more, to six hours. What it earned while the gap was open stays when the next reading comes, however far
/// that one lies: a car that was ruled ready is not taken back by it. So the climate before the gap also stands for it in the mean.
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
        double slow = unseen.IsElsewhere ? 0
            : !segment.IsUnconfirmed ? SlowOver(borders, ClosedRate(law, unseen, climate, open))
            : law.Mechanism == Mechanism.Evaporation || unseen.IsDark ? SlowOver(borders, OpenRate(law, unseen, open!))
            : 0;
        double fast = FastOver(borders, at => climate.At(at).Fast(law));
        double likely = Math.Max(straight.Likely, slow);
        Exposure before = unseen.Before;
        RateTerms terms = law.Terms(before.PanelKelvins, before.VapourPressurePa);
        return new Credit(slow, likely, Math.Max(likely, fast), likely * terms.X, likely * terms.Y, likely * before.AirKelvins);
    }

    private static Func<DateTimeOffset, double> ClosedRate(RateLaw law, Unseen unseen, GapClimate climate, GapClimate? open)
    {
        if (open is null)
        {
            return at => climate.At(at).Slow(law);
        }

        Func<DateTimeOffset, double> before = OpenRate(law, unseen, open);
        return at => Math.Max(climate.At(at).Slow(law), before(at));
    }

    private static Func<DateTimeOffset, double> OpenRate(RateLaw law, Unseen unseen, GapClimate open)
    {
        DateTimeOffset since = unseen.Since;
        DateTimeOffset from = law.Mechanism == Mechanism.Cure ? since + Source.CureLimit : DateTimeOffset.MinValue;
        DateTimeOffset to = since + LongestEarning;
        return at => at >= from && at <= to ? open.At(at).Slow(law) : 0;
    }

    /// <summary>Where the pieces of a gap end.</summary>
    /// <param name="segment">The segment, all of it inside the gap.</param>
    /// <param name="unseen">The readings around it.</param>
    /// <returns>The instants, in order, the segment's end the last of them.</returns>
    public static IReadOnlyList<DateTimeOffset> PieceEnds(in ClimateSegment segment, Unseen unseen) =>
        PieceEnds(segment, unseen, GapClimate.Of(segment, unseen).Turns());

    /// <summary>
    /// A quarter of an hour apart near the readings, farther apart far from them, so that a part of a segment is integrated as the whole
    /// is. Source (choice): ln k moves by a tenth in each.
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
        double step = hours < 4 ? 0.25 : hours < 16 ? 1 : 8;
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

    private static double SlowOver(List<DateTimeOffset> borders, Func<DateTimeOffset, double> rate)
    {
        double sum = 0;
        for (int i = 1; i < borders.Count; i++)
        {
            (DateTimeOffset from, DateTimeOffset to) = (borders[i - 1], borders[i]);
            if (from == to)
            {
                continue;
            }

            // A limit of the earning may lie on a border: what counts is inside.
            DateTimeOffset first = from.AddTicks(1), last = to.AddTicks(-1);
            (bool starts, bool ends) = (rate(first) > 0, rate(last) > 0);
            sum += (starts, ends) switch
            {
                (false, false) => 0,
                (true, true) => OverPiece(from, to, rate),
                (true, false) => OverPiece(from, Turn(first, last, rate), rate),
                (false, true) => OverPiece(Turn(last, first, rate), to, rate),
            };
        }

        return sum;
    }

    /// <summary>The last instant at which the rate is above 0, coming from one at which it is.</summary>
    private static DateTimeOffset Turn(DateTimeOffset earning, DateTimeOffset not, Func<DateTimeOffset, double> rate)
    {
        while (Math.Abs((not - earning).Ticks) > TimeSpan.TicksPerMillisecond)
        {
            DateTimeOffset middle = earning + ((not - earning) / 2);
            (earning, not) = rate(middle) > 0 ? (middle, not) : (earning, middle);
        }

        return earning;
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
