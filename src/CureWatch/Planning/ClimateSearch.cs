using CureWatch.Forecasting;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Planning;

/// <summary>Finds the least that has to be done about a bay's climate for a promise to be made.</summary>
/// <param name="reach">How far the climate may be changed.</param>
/// <param name="target">The chance asked for [1].</param>
/// <param name="now">The present.</param>
/// <param name="tryOut">What would follow.</param>
/// <remarks>
/// Steps of half a kelvin and of a percent: finer is no thermostat. Every step is tried in turn, since warmer is not always sooner: heat adds no water,
/// and a law that follows moisture more than warmth runs slower by it. Nothing is held where the sheets do not allow it, even where the air is further from them now. Where no
/// step is enough, the one with the best prospect stands for its kind.
/// </remarks>
public sealed class ClimateSearch(ClimateReach reach, double target, DateTimeOffset now, Func<ClimateHeld, Prospect> tryOut)
{
    private const double StepK = 0.5, StepPct = 1;

    /// <summary>The ways there are, one of each kind, those that are enough first.</summary>
    /// <returns>The ways; none of those for which the bay has no equipment, or no room left.</returns>
    public IEnumerable<WayBack> Ways() => new[] { Heat(), Moisten(), Dry(), Air(), HeatAndMoisten() }.OfType<WayBack>().OrderByDescending(w => w.IsEnough);

    /// <summary>The humidity of the air once it is held otherwise, its moisture kept where nobody changes that [% RH].</summary>
    /// <param name="reach">The air at present, and how far it may be changed.</param>
    /// <param name="airC">The temperature it is held at [°C]; null where it is not.</param>
    /// <param name="humidityPct">The humidity it is held at [% RH]; null where it is not.</param>
    public static double PercentAfter(ClimateReach reach, double? airC, double? humidityPct)
    {
        ArgumentNullException.ThrowIfNull(reach);
        return humidityPct ?? (100 * reach.VapourPressurePa / SaturationPressure.OverWaterPa(KelvinsAt(airC ?? reach.AirC)));
    }

    private double NowPct => PercentAt(reach.AirC);

    /// <summary>No warmer than leaves the air as moist as the coats need: heat adds no water.</summary>
    private WayBack? Heat() => reach.Heat is not { } heat
        ? null
        : Least(Temperatures().TakeWhile(c => PercentAt(c) >= reach.DriestPct), c => new WayBack(
            WayKind.Heat, heat, c, PercentAt(c), [], reach.HeatUntil, Try(new ClimateHeld { LeastAirKelvins = KelvinsAt(c) }), false));

    private WayBack? HeatAndMoisten()
    {
        double pct = Math.Clamp(NowPct, Math.Min(reach.DriestPct, reach.MoistestPct), reach.MoistestPct);
        return reach is not { Heat: { } heat, Moisten: { } moisten }
            ? null
            : Least(Temperatures(), c => new WayBack(
                WayKind.HeatAndMoisten,
                $"{heat} and {moisten}",
                c,
                pct,
                [],
                reach.HeatUntil,
                Try(new ClimateHeld { LeastAirKelvins = KelvinsAt(c), LeastHumidityPct = pct }),
                false));
    }

    private WayBack? Moisten() => reach.Moisten is not { } moisten
        ? null
        : Least(Steps(Math.Max(Math.Ceiling(NowPct + StepPct), reach.DriestPct), reach.MoistestPct, StepPct), pct => new WayBack(
            WayKind.Moisten, moisten, null, pct, [], null, Try(new ClimateHeld { LeastHumidityPct = pct }), false));

    private WayBack? Dry() => reach.Dry is not { } dry
        ? null
        : Least(Steps(-Math.Min(Math.Floor(NowPct - StepPct), reach.MoistestPct), -reach.DriestPct, StepPct).Select(p => -p), pct => new WayBack(
            WayKind.Dry, dry, null, pct, [], null, Try(new ClimateHeld { MostHumidityPct = pct }), false));

    /// <summary>All of it or nothing: an extraction has no thermostat. Not into air too cold or too dry for the coats.</summary>
    private WayBack? Air()
    {
        var aired = new ClimateHeld { AiredWith = reach.AiredWith };
        (double kelvins, double pascals) = aired.Of((KelvinsAt(reach.AirC), reach.VapourPressurePa));
        double airC = kelvins - Celsius.KelvinsAtZero, pct = 100 * pascals / SaturationPressure.OverWaterPa(kelvins);
        return reach.AiredWith is null || airC < reach.ColdestC || pct < reach.DriestPct
            ? null
            : Least([pct], _ => new WayBack(WayKind.Air, $"the extraction", airC, pct, [], null, Try(aired), false));
    }

    private Prospect Try(ClimateHeld held) => tryOut(reach.While(held, now));

    private WayBack? Least(IEnumerable<double> steps, Func<double, WayBack> wayAt)
    {
        WayBack? best = null;
        foreach (double step in steps)
        {
            WayBack way = wayAt(step);
            if (way.Then.Chance >= target)
            {
                return way with { IsEnough = true };
            }

            best = best is null || IsBetter(way.Then, best.Then) ? way : best;
        }

        return best;
    }

    private static bool IsBetter(Prospect a, Prospect b) =>
        (a.CollectFrom ?? DateTimeOffset.MaxValue) < (b.CollectFrom ?? DateTimeOffset.MaxValue)
        || (a.CollectFrom == b.CollectFrom && a.Chance > b.Chance);

    private IEnumerable<double> Temperatures() => Steps(Math.Max((Math.Floor(reach.AirC / StepK) + 1) * StepK, Math.Ceiling(reach.ColdestC / StepK) * StepK), reach.WarmestC, StepK);

    private static IEnumerable<double> Steps(double from, double to, double step)
    {
        for (double at = from; at <= to; at += step)
        {
            yield return at;
        }
    }

    private double PercentAt(double airC) => PercentAfter(reach, airC, null);

    private static double KelvinsAt(double airC) => airC + Celsius.KelvinsAtZero;
}
