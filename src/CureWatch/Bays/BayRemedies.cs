using CureWatch.Forecasting;
using CureWatch.Planning;
using CureWatch.Units;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>What a bay can do against something that may happen in it: with its own equipment, and at night nothing that must not be left alone.</summary>
internal static class BayRemedies
{
    /// <summary>No dehumidifier of a workshop gets much below this [%]. Source: common practice, no source.</summary>
    private const double DriedToPct = 50;

    private const double MoistenedToPct = 45;
    private static readonly double[] HeldC = [12, 14, 16, 18, 20, 22, 24];

    /// <summary>Everything that might help, the gentlest first.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="now">Its air now.</param>
    /// <param name="kind">What may happen.</param>
    /// <param name="from">When it would begin.</param>
    public static IEnumerable<Remedy> Against(BayState bay, AirNow now, WarningKind kind, DateTimeOffset from)
    {
        bool isOvernight = !(from < now.LeavesAt) && now.LeavesAt is not null;
        return kind switch
        {
            WarningKind.CondensingAhead or WarningKind.HumidityHighAhead => Heat(bay, now, isOvernight).Concat(Dry(bay, now)),
            WarningKind.PanelColdAhead => Heat(bay, now, isOvernight),
            WarningKind.CureStalledAhead => Heat(bay, now, isOvernight).Concat(Moisten(bay)),
            WarningKind.HumidityLowAhead => Moisten(bay),
            _ => [],
        };
    }

    private static IEnumerable<Remedy> Heat(BayState bay, AirNow now, bool isOvernight)
    {
        bool isFixed = bay.Plan.Equipment.Contains(Equipment.FixedHeating);
        if (!isFixed && (isOvernight || !bay.Plan.Equipment.Contains(Equipment.PortableHeater)))
        {
            yield break;
        }

        double attendedHours = isFixed || now.LeavesAt is not { } leaves ? double.PositiveInfinity : (leaves - now.At).TotalHours;
        double mostC = bay.Open.Min(o => o.Laws.Sheet.Limits.PanelMaxC) ?? HeldC[^1];
        double leastC = bay.Open.Max(o => o.Laws.Sheet.Limits.PanelMinC) ?? HeldC[0];
        foreach (double heldC in HeldC.Where(c => c >= leastC && c <= mostC && c + Celsius.KelvinsAtZero >= now.AirKelvins - 3))
        {
            var held = new Figure.Temperature(heldC, "0");
            yield return new Remedy(
                isFixed
                    ? (Sentence)$"Hold {held} on the fixed heating, doors shut"
                    : $"Hold {held} with the portable heater while somebody stays beside it, doors shut",
                new ClimateHeld { LeastAirKelvins = heldC + Celsius.KelvinsAtZero, ForHours = attendedHours },
                IsHeat: true);
        }
    }

    private static IEnumerable<Remedy> Dry(BayState bay, AirNow now)
    {
        if (bay.Plan.Equipment.Contains(Equipment.Dehumidifier))
        {
            yield return new Remedy($"Dehumidifier on now, doors shut", new ClimateHeld { MostHumidityPct = DriedToPct }, IsHeat: true);
        }

        if (Airing.LowersK(bay, now.VapourPressurePa, now.Outdoors?.VapourPressurePa) is { } lowerK)
        {
            yield return new Remedy(
                $"Air with the extraction: outdoors the dew point is {Figures.Kelvins(lowerK)} lower",
                new ClimateHeld { AiredWith = now.Outdoors },
                IsHeat: false);
        }
    }

    private static IEnumerable<Remedy> Moisten(BayState bay)
    {
        if (bay.Plan.Equipment.Contains(Equipment.Humidifier))
        {
            yield return new Remedy($"Humidifier on now, doors shut", new ClimateHeld { LeastHumidityPct = MoistenedToPct }, IsHeat: true);
        }
    }
}
