using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Reports;

/// <summary>How the air and the panels of a bay went through the last hours, and how they are expected to go.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="At">The instant between the two.</param>
/// <param name="Past">What was measured, the oldest first, at steps of equal length.</param>
/// <param name="Ahead">What is expected, from the instant on; empty while no air probe is heard.</param>
/// <param name="IsForecast">Whether the bay's own days tell what is expected; else what bays usually do.</param>
public sealed record ClimateCourse(string Bay, DateTimeOffset At, ImmutableArray<CoursePoint> Past, ImmutableArray<CourseAhead> Ahead, bool IsForecast)
{
    /// <summary>How far back, and how far ahead. Source (choice): a working day, and the night after it.</summary>
    public static readonly TimeSpan Reach = TimeSpan.FromHours(12);

    /// <summary>Between two points of the past. Source (choice): finer than any chart on a wall shows.</summary>
    public static readonly TimeSpan Step = TimeSpan.FromMinutes(10);

    /// <summary>The share of the ways it may go that is left out at either end [1].</summary>
    private const double Left = 0.05;

    /// <summary>Tells the course.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The bay's id; the bay must be there.</param>
    /// <returns>The course about the shop's present.</returns>
    public static ClimateCourse Of(Shop shop, string id)
    {
        BayState bay = shop.Bays[id];
        ImmutableArray<CoursePoint> past = [.. Instants(shop.Now).Select(at => MeasuredAt(bay, at))];
        if (AheadScene.Of(shop, new Present(shop, shop.Now), bay) is not { } now)
        {
            return new ClimateCourse(id, shop.Now, past, [], IsForecast: false);
        }

        var scenarios = Scenarios.Of(bay.Forecaster, now, Reach.TotalHours);
        return new ClimateCourse(id, shop.Now, past, [.. Scenarios.Knots.TakeWhile(h => h <= Reach.TotalHours).Select((h, k) => Expected(scenarios, h, k))], scenarios.IsForecast);
    }

    private static IEnumerable<DateTimeOffset> Instants(DateTimeOffset now)
    {
        int steps = (int)(Reach / Step);
        return Enumerable.Range(0, steps + 1).Select(i => now - ((steps - i) * Step));
    }

    /// <summary>The wettest air and the coldest panel of those that were believed and heard in time.</summary>
    private static CoursePoint MeasuredAt(BayState bay, DateTimeOffset at)
    {
        Sample? wettest = null;
        double? panelKelvins = null;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            if (!HeardIn.Tells(bay, i, Place.Outside, at))
            {
                continue;
            }

            if (HeardIn.Air(bay, i, at) is { } air)
            {
                wettest = air.VapourPressurePa <= wettest?.VapourPressurePa ? wettest : air;
            }

            if (HeardIn.Panel(bay, i, at) is { } panel && !HeardIn.IsUnderLamp(bay, i, at))
            {
                panelKelvins = panel.Kelvins >= panelKelvins ? panelKelvins : panel.Kelvins;
            }
        }

        return new CoursePoint(at, Degrees(wettest?.Kelvins), DewPointOf(wettest?.VapourPressurePa), Degrees(panelKelvins));
    }

    private static CourseAhead Expected(Scenarios scenarios, double hours, int knot)
    {
        double wettestShare = scenarios.Now.WettestShare;
        return new CourseAhead(
            scenarios.Now.At + TimeSpan.FromHours(hours),
            Of(p => p.AirKelvins - Celsius.KelvinsAtZero),
            Of(p => DewPointOf(p.VapourPressurePa * wettestShare)!.Value),
            Of(p => p.ColdestKelvins - Celsius.KelvinsAtZero));

        CourseBand Of(Func<ScenarioPoint, double> what)
        {
            (double, double)[] all = [.. scenarios.All.Select(s => (what(s.Points[knot]), s.Weight))];
            return new CourseBand(Weighed.Quantile(all, Left), Weighed.Median(all), Weighed.Quantile(all, 1 - Left));
        }
    }

    private static double? DewPointOf(double? pascals) => pascals is { } pa and > 0 ? DewPoint.OfPressure(pa).Degrees : null;

    private static double? Degrees(double? kelvins) => kelvins - Celsius.KelvinsAtZero;
}

/// <summary>A bay at an instant that is over.</summary>
/// <param name="At">The instant.</param>
/// <param name="AirC">Its wettest air [°C]; null where none was heard in time.</param>
/// <param name="DewPointC">That air's dew point [°C]; null likewise.</param>
/// <param name="PanelC">The coldest panel that was measured [°C]; null where none was.</param>
public readonly record struct CoursePoint(DateTimeOffset At, double? AirC, double? DewPointC, double? PanelC);

/// <summary>What is expected of a bay at an instant to come.</summary>
/// <param name="At">The instant.</param>
/// <param name="AirC">Its mean air [°C].</param>
/// <param name="DewPointC">The dew point of its wettest air [°C].</param>
/// <param name="PanelC">The coldest panel, measured or not [°C].</param>
public readonly record struct CourseAhead(DateTimeOffset At, CourseBand AirC, CourseBand DewPointC, CourseBand PanelC);

/// <summary>What lies between what is seldom less and what is seldom more.</summary>
/// <param name="Low">It is less in one of twenty ways it may go [°C].</param>
/// <param name="Likely">It is as often less as more [°C].</param>
/// <param name="High">It is more in one of twenty [°C].</param>
public readonly record struct CourseBand(double Low, double Likely, double High);
