using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>How far a bay's climate may be changed for a car: by its equipment, the sheets of all that cures in it, and the heat limits of the car.</summary>
internal static class BayReaches
{
    /// <summary>What a coat can take where its sheet is silent [°C, °C, % RH, % RH]. Source (choice): common practice, no source.</summary>
    private const double UsualColdestC = 5, UsualWarmestC = 30, UsualDriestPct = 30, UsualMoistestPct = 75;

    /// <param name="shop">The shop.</param>
    /// <param name="job">The job.</param>
    /// <param name="bay">The bay, where some of its surfaces are.</param>
    public static ClimateReach Of(Shop shop, JobState job, BayState bay)
    {
        if (BayAir.Of(new Present(shop, shop.Now), bay, Place.Outside) is not { } air)
        {
            return new ClimateReach(0, 0, double.NegativeInfinity, 100, 0, null, null, null, null);
        }

        SheetLimits[] limits =
        [
            .. bay.Open.Select(o => o.Laws.Sheet.Limits),
            .. job.Job.Surfaces.SelectMany(shop.AllLawsOf).Select(l => l.Sheet.Limits),
        ];
        IEnumerable<double> heat =
            from surface in bay.Open.SelectMany(o => o.Surfaces).Select(s => s.Surface).Concat(job.Job.Surfaces)
            select shop.HeatLimitOfC(surface);
        (Sentence? heater, DateTimeOffset? until) = HeaterOf(shop, bay);
        AirLook look = Look(air);
        ClimateMeans means = BayMeans.Of(shop, bay, look);
        return new ClimateReach(
            look.AirC,
            air.Wettest.VapourPressurePa,
            Math.Min(limits.Min(l => l.PanelMaxC ?? UsualWarmestC), heat.Min()),
            limits.Max(l => l.HumidityMinPct ?? UsualDriestPct),
            Math.Min(limits.Min(l => l.HumidityMaxPct ?? UsualMoistestPct), MoistestDryPct(air, limits.Max(l => l.SpreadMinK))),
            heater,
            until,
            means.Moisten,
            bay.Plan.Equipment.Contains(Equipment.Dehumidifier) ? means.Dry : null)
        {
            AiredWith = Airing.With(shop, bay, air.Wettest.VapourPressurePa),
            ColdestC = limits.Max(l => l.PanelMinC ?? UsualColdestC),
        };
    }

    /// <summary>A portable heater is for while somebody is there, and never for the night.</summary>
    private static (Sentence? Heater, DateTimeOffset? Until) HeaterOf(Shop shop, BayState bay)
    {
        if (bay.Plan.Equipment.Contains(Equipment.FixedHeating))
        {
            return ($"the fixed heating", null);
        }

        ShopDay? day = shop.Plan.Hours.DayAt(shop.Now);
        bool isAttended = bay.Plan.Equipment.Contains(Equipment.PortableHeater) && day?.Opens <= shop.Now && day.LocksUp is not null;
        return isAttended ? ((Sentence?)$"the portable heater, attended and with no solvent open", day!.LocksUp) : (null, null);
    }

    /// <summary>The moistest at which the coldest panel keeps its spread, however the bay warms or cools: it stays as far below the air as it is.</summary>
    private static double MoistestDryPct(BayAir air, double spreadK)
    {
        double belowK = Math.Max(0, air.Wettest.Kelvins - (air.ColdestKelvins ?? air.Wettest.Kelvins));
        return 100 * Math.Exp(SaturationPressure.LnOverWater(air.Wettest.Kelvins - belowK - spreadK) - SaturationPressure.LnOverWater(air.Wettest.Kelvins));
    }

    private static AirLook Look(BayAir air) => new(
        Celsius.FromKelvins(air.Wettest.Kelvins).Degrees,
        air.Wettest.VapourPressurePa,
        air.HumidityMinPct,
        air.HumidityMaxPct,
        Celsius.FromKelvins(air.CondensationKelvins).Degrees);
}
