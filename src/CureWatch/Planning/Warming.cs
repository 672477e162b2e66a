using CureWatch.Panels;
using CureWatch.TimeWindows;
using CureWatch.Units;

namespace CureWatch.Planning;

/// <summary>A panel that is colder than the air around it, on its way there.</summary>
/// <param name="Heat">The heat it holds.</param>
/// <param name="HasBody">Whether there is a car behind it, as cold as it is.</param>
/// <remarks>
/// The earliest is that of the lightest skin alone, likely and latest that of a skin on a usual and on the heaviest body, in air that stays as it is; the
/// panel's and the air's own errors are for whoever states the target.
/// </remarks>
public sealed record Warming(PanelHeat Heat, bool HasBody)
{
    /// <summary>What takes longer than this is not waited for. Source (choice): a working day.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromHours(12);

    /// <summary>When it is as warm as wanted, if nobody does anything.</summary>
    /// <param name="now">The present.</param>
    /// <param name="panelC">What it is now [°C].</param>
    /// <param name="airC">What the air is [°C].</param>
    /// <param name="targetC">What it has to be [°C].</param>
    /// <returns>The bounds; null where time alone does not take it there within a working day.</returns>
    public TimeBounds? ReachedAt(DateTimeOffset now, double panelC, double airC, double targetC)
    {
        TimeSpan? early = TimeTo(new TwoNode(Heat.LightJm2K, 0), panelC, airC, targetC);
        TimeSpan? likely = TimeTo(new TwoNode(Heat.UsualJm2K, HasBody ? TwoNode.UsualBodyJm2K : 0), panelC, airC, targetC);
        TimeSpan? late = TimeTo(new TwoNode(Heat.HeavyJm2K, HasBody ? TwoNode.HeavyBodyJm2K : 0), panelC, airC, targetC);
        return late is null ? null : new TimeBounds(now + early, now + likely, now + late);
    }

    private static TimeSpan? TimeTo(TwoNode node, double panelC, double airC, double targetC)
    {
        double start = panelC + Celsius.KelvinsAtZero, air = airC + Celsius.KelvinsAtZero, target = targetC + Celsius.KelvinsAtZero;
        if (target >= air || node.After((start, start), air, air, Longest).Skin < target)
        {
            return null;
        }

        TimeSpan early = TimeSpan.Zero, late = Longest;
        while (late - early > TimeSpan.FromSeconds(1))
        {
            TimeSpan middle = (early + late) / 2;
            (early, late) = node.After((start, start), air, air, middle).Skin < target ? (middle, late) : (early, middle);
        }

        return late;
    }
}
