using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>The temperature that a wetted, ventilated thermometer settles at.</summary>
public static class WetBulb
{
    /// <summary>Thermodynamic wet-bulb temperature of air.</summary>
    /// <param name="air">Air temperature [°C], −60 to 80.</param>
    /// <param name="humidity">Relative humidity over liquid water [%], above 0, up to 100.</param>
    /// <param name="pressurePa">Air pressure [Pa], 50 000 to 110 000.</param>
    /// <returns>Wet bulb [°C]; never below the dew point, never above <paramref name="air"/>, rising with humidity.</returns>
    /// <remarks>
    /// Equation: W = ((2501 − 2.326 T_w)·W_s(T_w) − 1.006 (t − T_w))/(2501 + 1.86 t − 4.186 T_w) over water;
    /// W = ((2830 − 0.24 T_w)·W_s(T_w) − 1.006 (t − T_w))/(2830 + 1.86 t − 2.1 T_w) over ice; bisected between the dew point and the air.
    /// Source (law): ASHRAE Fundamentals 2017, ch. 1, eq. 33 and 35.
    /// Edges: a bulb below 0 °C is iced; since ice takes more heat to evaporate, the answer steps from 0 °C to just below it. Where a bulb
    /// of water and a bulb of ice are both possible, water is taken. In air supersaturated over ice the answer is held at the air's
    /// temperature. Below 1 % the humidity is taken as 1 %.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, NaN included.</exception>
    public static Celsius Of(Celsius air, RelativeHumidity humidity, double pressurePa)
    {
        ClimateRange.DemandPressure(pressurePa);
        double ratio = MoistureContent.Ratio(Vapour.PressurePa(air, humidity), pressurePa);
        double dry = air.Degrees;
        double low = DewPoint.Of(air, humidity).Degrees;
        if (low >= 0 || (dry >= 0 && ratio >= OverWater(0, dry, pressurePa)))
        {
            return new Celsius(Bisect(t => OverWater(t, dry, pressurePa), ratio, Math.Max(low, 0), dry));
        }

        return new Celsius(Bisect(t => OverIce(t, dry, pressurePa), ratio, low, Math.Min(dry, 0)));
    }

    private static double Bisect(Func<double, double> rising, double target, double low, double high)
    {
        // 50 halvings of at most 180 K end below 1e-12 K.
        for (int halving = 0; halving < 50; halving++)
        {
            double middle = low + ((high - low) / 2);
            if (rising(middle) < target)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return high;
    }

    private static double OverWater(double bulbC, double dryC, double pressurePa)
    {
        double saturated = MoistureContent.Ratio(SaturationPressure.OverWaterPa(bulbC + Celsius.KelvinsAtZero), pressurePa);
        return (((2501 - (2.326 * bulbC)) * saturated) - (1.006 * (dryC - bulbC))) / (2501 + (1.86 * dryC) - (4.186 * bulbC));
    }

    private static double OverIce(double bulbC, double dryC, double pressurePa)
    {
        double saturated = MoistureContent.Ratio(SaturationPressure.OverIcePa(bulbC + Celsius.KelvinsAtZero), pressurePa);
        return (((2830 - (0.24 * bulbC)) * saturated) - (1.006 * (dryC - bulbC))) / (2830 + (1.86 * dryC) - (2.1 * bulbC));
    }
}
