namespace CureWatch.Tests.Nights;

/// <summary>Water in air by the form of Magnus with the coefficients of WMO-No. 8, another than the program's: within 0.1 K of it in a bay.</summary>
internal static class Water
{
    public static double SaturationPa(double celsius) => celsius >= 0
        ? 611.2 * Math.Exp(17.62 * celsius / (243.12 + celsius))
        : 611.2 * Math.Exp(22.46 * celsius / (272.62 + celsius));

    public static double OverWaterPa(double celsius) => 611.2 * Math.Exp(17.62 * celsius / (243.12 + celsius));

    /// <summary>Kilograms in a cubic metre, by the gas law.</summary>
    public static double Density(double pascals, double celsius) => pascals / (461.5 * (celsius + 273.15));

    public static double Pressure(double density, double celsius) => density * 461.5 * (celsius + 273.15);

    /// <summary>Where it condenses: dew point, or frost point below zero.</summary>
    public static double CondensesAtC(double pascals)
    {
        double x = Math.Log(pascals / 611.2);
        return x >= 0 ? 243.12 * x / (17.62 - x) : 272.62 * x / (22.46 - x);
    }
}
