using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Forecasting;

/// <summary>One way a bay may go through the hours that are to come.</summary>
/// <param name="Weight">How much it counts beside the others [1].</param>
/// <param name="Points">What it is at each of the knots of <see cref="Scenarios"/>.</param>
internal readonly record struct Scenario(double Weight, ScenarioPoint[] Points)
{
    /// <summary>A panel follows the air that somebody heats half an hour later. Source (choice): sheet and glass take minutes, castings an hour.</summary>
    private const double PanelLagHours = 0.5;

    /// <summary>The same with something done about it.</summary>
    public Scenario Under(ClimateHeld held, AirNow now)
    {
        var points = new ScenarioPoint[Points.Length];
        for (int k = 0; k < points.Length; k++)
        {
            ScenarioPoint before = Points[k];
            double hours = Scenarios.Knots[k];
            (double kelvins, double pascals) = held.Of((before.AirKelvins, before.VapourPressurePa), hours);
            double panelsAirKelvins = held.Of((before.AirKelvins, before.VapourPressurePa), Math.Max(0, hours - PanelLagHours)).Kelvins;
            points[k] = new ScenarioPoint(kelvins, pascals, before.MeasuredPanelKelvins + panelsAirKelvins - before.AirKelvins);
        }

        Follow(points, now);
        return new Scenario(Weight, points);
    }

    /// <summary>Has every surface without a probe follow the air; the coldest of all governs, and the wettest air.</summary>
    public static void Follow(ScenarioPoint[] points, AirNow now)
    {
        Span<double> coldest = stackalloc double[points.Length], hottest = stackalloc double[points.Length];
        for (int k = 0; k < points.Length; k++)
        {
            coldest[k] = hottest[k] = points[k].MeasuredPanelKelvins;
        }

        foreach ((double kelvins, TimeSpan timeConstant) in now.Modelled)
        {
            double panel = kelvins;
            for (int k = 0; k < points.Length; k++)
            {
                panel = k == 0 ? kelvins : OneNode.After(
                    panel, points[k - 1].AirKelvins, points[k].AirKelvins, TimeSpan.FromHours(Scenarios.Knots[k] - Scenarios.Knots[k - 1]), timeConstant);
                coldest[k] = Math.Min(coldest[k], panel);
                hottest[k] = Math.Max(hottest[k], panel);
            }
        }

        for (int k = 0; k < points.Length; k++)
        {
            points[k] = points[k].Beside(coldest[k], hottest[k], now.WettestShare);
        }
    }
}

/// <summary>A bay at one moment of a scenario.</summary>
/// <param name="AirKelvins">Its mean air [K].</param>
/// <param name="VapourPressurePa">Its mean vapour pressure [Pa].</param>
/// <param name="MeasuredPanelKelvins">The coldest panel that is measured, or what stands for it where none is [K].</param>
internal readonly record struct ScenarioPoint(double AirKelvins, double VapourPressurePa, double MeasuredPanelKelvins)
{
    /// <summary>The coldest panel, measured or not [K].</summary>
    public double ColdestKelvins { get; private init; }

    /// <summary>The warmest of them [K].</summary>
    public double HottestKelvins { get; private init; }

    /// <summary>How far the coldest panel is above where the wettest air condenses, below 0 where it is wet [K].</summary>
    public double SpreadKelvins { get; private init; }

    /// <summary>Relative humidity of the mean air over water [%].</summary>
    public double HumidityPct { get; private init; }

    /// <summary>The same between its panels, with how near it is to water worked out once for all who ask.</summary>
    /// <param name="coldestKelvins">The coldest panel [K].</param>
    /// <param name="hottestKelvins">The warmest of them [K].</param>
    /// <param name="wettestShare">The vapour pressure of the wettest air as a share of the mean.</param>
    public ScenarioPoint Beside(double coldestKelvins, double hottestKelvins, double wettestShare)
    {
        bool isIce = coldestKelvins < Celsius.KelvinsAtZero;
        double ln = isIce ? SaturationPressure.LnOverIce(coldestKelvins) : SaturationPressure.LnOverWater(coldestKelvins);
        double slope = isIce ? SaturationPressure.IceSlope(coldestKelvins) : SaturationPressure.WaterSlope(coldestKelvins);
        return this with
        {
            ColdestKelvins = coldestKelvins,
            HottestKelvins = hottestKelvins,
            SpreadKelvins = (ln - Math.Log(VapourPressurePa * wettestShare)) / slope,
            HumidityPct = 100 * VapourPressurePa / SaturationPressure.OverWaterPa(AirKelvins),
        };
    }
}
