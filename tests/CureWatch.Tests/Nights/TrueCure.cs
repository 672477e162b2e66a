namespace CureWatch.Tests.Nights;

/// <summary>How a coat of a simulated night really cures: the sheet's law with constants of its own, which lie where the sheet leaves them open.</summary>
internal sealed class TrueCure
{
    /// <summary>Standard deviations of what the sheet's one row leaves open: activation energy [J/mol], exponent and ln of the hours [1].</summary>
    private const double OfActivation = 15e3, OfExponent = 0.3, OfLnHours = 0.1;

    /// <summary>The sheet's own slow bound is right: what is slower than so many of its standard deviations is not drawn.</summary>
    private const double Slowest = 1.5;

    private const double Gas = 8.314462618;

    private readonly double _activation;
    private readonly double _exponent;
    private readonly double _hours;

    public TrueCure(Chance chance, Night night, double hours)
    {
        Truth[] first = night.Minutes[night.CoatedAt..night.OpensAt];
        double x = ((1 / (first.Average(t => t.SteelC) + 273.15)) - (1 / 293.15)) / Gas;
        double y = Math.Log(first.Average(t => t.VapourPa / Water.OverWaterPa(t.SteelC)) / 0.5);
        double deviation = Math.Sqrt(Square(OfLnHours) + Square(OfActivation * x) + Square(OfExponent * y));
        double activation, exponent, lnHours;
        do
        {
            (activation, exponent, lnHours) = (OfActivation * chance.Normal(), OfExponent * chance.Normal(), OfLnHours * chance.Normal());
        }
        while (lnHours + (activation * x) - (exponent * y) > Slowest * deviation);

        (_activation, _exponent, _hours) = (50e3 + activation, Math.Max(0, 0.6 + exponent), hours * Math.Exp(lnHours));
    }

    /// <summary>The minute keep-dry really ends; null where it has not by the end of what was simulated.</summary>
    public int? EndOf(Night night)
    {
        double steel = 0, cast = 0;
        for (int minute = night.CoatedAt + 3; minute < night.Minutes.Length; minute++)
        {
            Truth truth = night.Minutes[minute];
            steel += Rate(truth.SteelC, truth.VapourPa) / 60;
            cast += Rate(truth.CastC, truth.VapourPa) / 60;
            if (steel >= _hours && (!night.HasWheels || cast >= _hours))
            {
                return minute;
            }
        }

        return null;
    }

    private double Rate(double panelC, double pascals)
    {
        double activity = Math.Clamp(pascals / Water.OverWaterPa(panelC), 0.05, 0.85);
        return Math.Exp(_activation / Gas * ((1 / 293.15) - (1 / (panelC + 273.15)))) * Math.Pow(activity / 0.5, _exponent);
    }

    private static double Square(double number) => number * number;
}
