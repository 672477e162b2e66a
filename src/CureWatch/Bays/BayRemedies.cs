using CureWatch.Forecasting;
using CureWatch.Planning;
using CureWatch.Psychrometrics;
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

    /// <summary>How far inside what the sheets allow the air is held [%]. Source (choice): no humidifier keeps it closer.</summary>
    private const double InsidePct = 5;

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
            WarningKind.PanelHotAhead => Cool(bay, now),
            _ => [],
        };
    }

    private static IEnumerable<Remedy> Heat(BayState bay, AirNow now, bool isOvernight)
    {
        bool isFixed = bay.Plan.Equipment.Contains(Equipment.FixedHeating);
        if (!isFixed && (isOvernight || now.LeavesAt is null || !bay.Plan.Equipment.Contains(Equipment.PortableHeater)))
        {
            yield break;
        }

        double attendedHours = isFixed ? double.PositiveInfinity : (now.LeavesAt!.Value - now.At).TotalHours;
        double mostC = bay.Open.Min(o => o.Laws.Sheet.Limits.PanelMaxC) ?? HeldC[^1];
        double leastC = ColdestC(bay) ?? HeldC[0];
        foreach (double heldC in HeldC.Where(c => c >= leastC && c <= mostC && c + Celsius.KelvinsAtZero >= now.AirKelvins - 3 && IsMoistEnough(bay, now, c)))
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
            double heldPct = Math.Max(Math.Min(DriedToPct, (MoistestPct(bay) ?? 100) - InsidePct), DriestPct(bay) ?? 0);
            yield return new Remedy($"Dehumidifier on now, doors shut", new ClimateHeld { MostHumidityPct = heldPct }, IsHeat: true);
        }

        if (Airing.LowersK(bay, now.VapourPressurePa, now.Outdoors?.VapourPressurePa) is { } lowerK && MayBeAired(bay, now))
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
            double heldPct = Math.Min(Math.Max(MoistenedToPct, (DriestPct(bay) ?? 0) + InsidePct), MoistestPct(bay) ?? 100);
            yield return new Remedy($"Humidifier on now, doors shut", new ClimateHeld { LeastHumidityPct = heldPct }, IsHeat: true);
        }
    }

    /// <summary>Not into air too cold or too dry for the coats.</summary>
    private static bool MayBeAired(BayState bay, AirNow now)
    {
        (double kelvins, double pascals) = new ClimateHeld { AiredWith = now.Outdoors }.Of((now.AirKelvins, now.VapourPressurePa));
        return !(kelvins - Celsius.KelvinsAtZero < ColdestC(bay)) && !(100 * pascals / SaturationPressure.OverWaterPa(kelvins) < DriestPct(bay));
    }

    private static IEnumerable<Remedy> Cool(BayState bay, AirNow now)
    {
        if (now.AirKelvins - now.Outdoors?.Kelvins is >= Airing.WorthK and var coolerK
            && Airing.LowersK(bay, now.VapourPressurePa, now.Outdoors?.VapourPressurePa) is not null && MayBeAired(bay, now))
        {
            yield return new Remedy(
                $"Air with the extraction: outdoors it is {Figures.Kelvins(coolerK)} cooler", new ClimateHeld { AiredWith = now.Outdoors }, IsHeat: false);
        }
    }

    /// <summary>Heat adds no water: air that is moist enough may be too dry once it is warm.</summary>
    private static bool IsMoistEnough(BayState bay, AirNow now, double heldC)
    {
        double warmerPct = PercentAt(Math.Max(heldC + Celsius.KelvinsAtZero, now.AirKelvins)), nowPct = PercentAt(now.AirKelvins);
        return !(warmerPct < DriestPct(bay)) || nowPct < DriestPct(bay);

        double PercentAt(double kelvins) => 100 * now.VapourPressurePa / SaturationPressure.OverWaterPa(kelvins);
    }

    private static double? ColdestC(BayState bay) => bay.Open.Max(o => o.Laws.Sheet.Limits.PanelMinC);

    private static double? DriestPct(BayState bay) => bay.Open.Max(o => o.Laws.Sheet.Limits.HumidityMinPct);

    private static double? MoistestPct(BayState bay) => bay.Open.Min(o => o.Laws.Sheet.Limits.HumidityMaxPct);
}
