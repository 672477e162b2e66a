using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Products;

/// <summary>A climate in the two terms a stage's time is fitted in: ln h = ln D + E·x − m·y.</summary>
/// <param name="X">Temperature term [mol/J]; above 0 where it is colder than the reference.</param>
/// <param name="Y">Humidity term [1]; above 0 where the humidity speeds the stage up.</param>
/// <remarks>The default is the reference climate itself.</remarks>
public readonly record struct FitTerms(double X, double Y)
{
    /// <summary>Finds the terms of a sheet row's climate, panel and air at one temperature as in the room a sheet is written in.</summary>
    /// <param name="temperature">Temperature of air and panel [°C].</param>
    /// <param name="humidity">Relative humidity [%].</param>
    /// <param name="reference">The climate at which the sheet's times hold, below 100 %.</param>
    /// <param name="byDeficit">True where drying is driven by the vapour-pressure deficit (waterborne evaporation).</param>
    /// <returns>Both terms; 0 and 0 at the reference where its humidity lies inside the clamps.</returns>
    /// <remarks>
    /// Equation: x = (1/T − 1/Tr)/R;  y = ln(clamp(a, 0.05, 0.85)/a_r);  by deficit y = ln max(0.05, e_w(T)(1 − a)/(e_w(Tr)(1 − a_r))).
    /// Source: Arrhenius (law); the clamps are those of <see cref="RateLaw"/> (choice), so that a fit and the law it gives agree.
    /// Edges: saturated air (100 %) has no deficit and counts as the floor.
    /// </remarks>
    public static FitTerms Of(Celsius temperature, RelativeHumidity humidity, ReferenceClimate reference, bool byDeficit)
    {
        double kelvins = temperature.Kelvins, referenceKelvins = reference.Temperature.Kelvins;
        double x = ((1 / kelvins) - (1 / referenceKelvins)) / RateLaw.GasConstant;
        double speedUp = byDeficit
            ? Math.Max(RateLaw.LeastDeficit, DeficitPa(kelvins, humidity) / DeficitPa(referenceKelvins, reference.Humidity))
            : Math.Clamp(humidity.Fraction, RateLaw.DriestActivity, RateLaw.MoistestActivity) / reference.Humidity.Fraction;
        return new FitTerms(x, Math.Log(speedUp));
    }

    private static double DeficitPa(double kelvins, RelativeHumidity humidity) =>
        SaturationPressure.OverWaterPa(kelvins) * (1 - humidity.Fraction);
}
