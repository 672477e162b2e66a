namespace CureWatch.Tests.Learning;

/// <summary>A bay with a climate of its own, and what coats do in it. It knows nothing of the engine: another saturation formula, another integrator.</summary>
internal sealed class InventedBay
{
    private const double GasConstant = 8.314;
    private const double StepSeconds = 2;

    private readonly (double Amplitude, double Hours, double Phase)[] _waves;
    private readonly double _meanC;
    private readonly double _meanPct;
    private readonly Random _random;
    private readonly double _probeOffC;
    private readonly double _probeOffPct;

    public InventedBay(Random random)
    {
        _random = random;
        _meanC = 17 + (6 * random.NextDouble());
        _meanPct = 42 + (16 * random.NextDouble());
        _waves = [Wave(2.5, 24), Wave(1, 7.3), Wave(0.6, 2.1), Wave(0.2, 0.4)];
        (_probeOffC, _probeOffPct) = (0.15 * Normal(random), 1.0 * Normal(random));

        (double, double, double) Wave(double amplitude, double hours) => (amplitude * (0.5 + random.NextDouble()), hours, 2 * Math.PI * random.NextDouble());
    }

    public static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    public double AirC(double hour) => _meanC + _waves.Sum(w => w.Amplitude * Math.Sin((2 * Math.PI * hour / w.Hours) + w.Phase));

    /// <summary>Moist when it is cold, and a slow swing of its own.</summary>
    public double HumidityPct(double hour) => _meanPct - (1.5 * (AirC(hour) - _meanC)) + (4 * Math.Sin((hour / 9) + _waves[1].Phase));

    /// <summary>What its probe says, which is a little off, and noisy.</summary>
    public (double C, double Pct) Reading(double hour) =>
        (Math.Round(AirC(hour) + _probeOffC + (0.05 * Normal(_random)), 2), Math.Round(HumidityPct(hour) + _probeOffPct + (0.3 * Normal(_random)), 1));

    /// <summary>When a coat is through that would take so long at 20 °C and 50 %.</summary>
    /// <returns>The hour.</returns>
    public double Through(double hour, double referenceHours, double energyJmol, double exponent)
    {
        double left = referenceHours, step = StepSeconds / 3600;
        while (true)
        {
            double middle = hour + (step / 2), kelvins = AirC(middle) + 273.15;
            double rate = Math.Exp(energyJmol / GasConstant * ((1 / 293.15) - (1 / kelvins))) * Math.Pow(HumidityPct(middle) / 50, exponent);
            if (left <= rate * step)
            {
                return hour + (left / rate);
            }

            left -= rate * step;
            hour += step;
        }
    }
}
