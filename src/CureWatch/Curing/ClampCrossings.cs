using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>Finds where the humidity crosses a clamp of a law, at which its rates bend or break off.</summary>
/// <remarks>
/// While temperature and vapour pressure run straight, the humidity level turns once at most: where the logarithm of a water activity is level it
/// bends down, since s_w² is above |ds_w/dT| at every temperature of a bay, and a deficit bends up. Before the turn and after it each clamp is
/// crossed once at most.
/// </remarks>
internal static class ClampCrossings
{
    private const int Halvings = 50;

    /// <summary>Share of the way over which it is seen whether the level rises. Source (choice): far above rounding, far below what a level bends in.</summary>
    private const double Step = 1e-5;

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
        double turn = Turn(law, segment);
        List<double> shares = [turn, 1];
        foreach (double clamp in law.Clamps)
        {
            AddCrossing(shares, law, segment, clamp, 0, turn);
            AddCrossing(shares, law, segment, clamp, turn, 1);
        }

        shares.Sort();
        return shares;
    }

    /// <summary>Where the level turns; the end, where it does not.</summary>
    private static double Turn(RateLaw law, in ClimateSegment segment)
    {
        bool risesAtFirst = Rises(law, segment, 0);
        if (Rises(law, segment, 1 - Step) == risesAtFirst)
        {
            return 1;
        }

        double from = 0, to = 1;
        for (int halving = 0; halving < Halvings; halving++)
        {
            double middle = (from + to) / 2;
            (from, to) = Rises(law, segment, middle) == risesAtFirst ? (middle, to) : (from, middle);
        }

        return to;
    }

    private static bool Rises(RateLaw law, in ClimateSegment segment, double share) => Level(law, segment, share + Step) > Level(law, segment, share);

    private static void AddCrossing(List<double> shares, RateLaw law, in ClimateSegment segment, double clamp, double from, double to)
    {
        bool startsAbove = Level(law, segment, from) > clamp;
        if (Level(law, segment, to) > clamp == startsAbove)
        {
            return;
        }

        for (int halving = 0; halving < Halvings; halving++)
        {
            double middle = (from + to) / 2;
            (from, to) = Level(law, segment, middle) > clamp == startsAbove ? (middle, to) : (from, middle);
        }

        shares.Add(to);
    }

    private static double Level(RateLaw law, in ClimateSegment segment, double share)
    {
        Exposure exposure = segment.AtStart.Towards(segment.AtEnd, share);
        return law.HumidityLevel(exposure.PanelKelvins, exposure.VapourPressurePa);
    }
}
