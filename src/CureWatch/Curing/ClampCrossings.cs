using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>Finds where the humidity crosses a clamp of a law, at which its rates bend or break off.</summary>
internal static class ClampCrossings
{
    /// <summary>Parts of a segment that are each looked through for one crossing. Source (choice).</summary>
    private const int Looks = 16;

    /// <summary>Whether a crossing can lie in a segment.</summary>
    public static bool MayBeIn(RateLaw law, in ClimateSegment segment)
    {
        double reach = law.HumidityReach(
            segment.AtStart.PanelKelvins, segment.AtStart.VapourPressurePa, segment.AtEnd.PanelKelvins, segment.AtEnd.VapourPressurePa);
        return MayBeBetween(law, Level(law, segment, 0), Level(law, segment, 1), reach);
    }

    /// <summary>Whether a crossing can lie between two humidity levels, given how far the level can move on the way.</summary>
    public static bool MayBeBetween(RateLaw law, double start, double end, double reach)
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

    /// <summary>Where to split a segment.</summary>
    /// <returns>Shares of the way in order, each crossing among them, the last of them 1.</returns>
    public static List<double> Shares(RateLaw law, in ClimateSegment segment)
    {
        var shares = new List<double>();
        for (int look = 1; look <= Looks; look++)
        {
            double from = (look - 1.0) / Looks;
            double to = (double)look / Looks;
            foreach (double clamp in law.Clamps)
            {
                if (Crossing(law, segment, clamp, from, to) is { } crossing)
                {
                    shares.Add(crossing);
                }
            }

            shares.Add(to);
        }

        shares.Sort();
        return shares;
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
}
