namespace CureWatch.Tests.Days;

/// <summary>
/// A few days of a bay, and what a coat in it really does. It knows nothing of the engine: another saturation formula, another integrator, a panel that
/// follows the air by steps, and probes that are off by as much as their sheets allow.
/// </summary>
internal sealed class InventedDay
{
    private const double Hours = 200, StepHours = 1 / 120.0;

    private readonly (double Amplitude, double Hours, double Phase)[] _air, _dew;
    private readonly double[] _panelC = new double[(int)(Hours / StepHours) + 2];
    private readonly double _meanC, _dewBelowK;
    private readonly double _airOffK, _humidityOffPct, _panelOffK;

    public InventedDay(Random random, double airLimitK, double humidityLimitPct, double panelLimitK, double panelLagHours)
    {
        (_meanC, _dewBelowK) = (13 + (12 * random.NextDouble()), 8 + (7 * random.NextDouble()));
        _air = [Wave(2, 24), Wave(0.8, 7.3), Wave(0.4, 2.1)];
        _dew = [Wave(0.9, 24), Wave(0.4, 5.1)];
        (_airOffK, _humidityOffPct, _panelOffK) = (Off(airLimitK), Off(humidityLimitPct), Off(panelLimitK));
        _panelC[0] = AirC(0);
        for (int i = 1; i < _panelC.Length; i++)
        {
            _panelC[i] = _panelC[i - 1] + ((AirC(i * StepHours) - _panelC[i - 1]) * Math.Min(1, StepHours / panelLagHours));
        }

        double Off(double limit) => limit * ((2 * random.NextDouble()) - 1);

        (double, double, double) Wave(double amplitude, double hours) => (amplitude * (0.5 + random.NextDouble()), hours, 2 * Math.PI * random.NextDouble());
    }

    /// <summary>What the probes say, each off by its own constant error.</summary>
    public (double AirC, double HumidityPct, double PanelC) Reading(double hour) =>
        (AirC(hour) + _airOffK, (100 * VapourPa(hour) / SaturationPa(AirC(hour))) + _humidityOffPct, PanelC(hour) + _panelOffK);

    /// <summary>When a coat is through that takes so long at 20 °C and 50 %; null where it does not get there in these days.</summary>
    public double? Through(double hour, double referenceHours, double energyJmol, double exponent)
    {
        const double Step = 1 / 360.0;
        for (double left = referenceHours; hour < Hours - 1; hour += Step)
        {
            double panelC = PanelC(hour + (Step / 2)), activity = VapourPa(hour + (Step / 2)) / SaturationPa(panelC);
            double rate = Math.Exp(energyJmol / 8.314 * ((1 / 293.15) - (1 / (panelC + 273.15)))) * Math.Pow(Math.Clamp(activity, 0.05, 0.85) / 0.5, exponent);
            if (left <= rate * Step)
            {
                return hour + (left / rate);
            }

            left -= rate * Step;
        }

        return null;
    }

    private double AirC(double hour) => _meanC + Sum(_air, hour);

    private double VapourPa(double hour) => SaturationPa(_meanC - _dewBelowK + Sum(_dew, hour));

    private double PanelC(double hour)
    {
        double place = hour / StepHours;
        int before = (int)place;
        return _panelC[before] + ((place - before) * (_panelC[before + 1] - _panelC[before]));
    }

    /// <summary>Source (law): Buck 1996, from memory; another one than the engine's.</summary>
    private static double SaturationPa(double c) => 611.21 * Math.Exp((18.678 - (c / 234.5)) * c / (257.14 + c));

    private static double Sum((double Amplitude, double Hours, double Phase)[] waves, double hour) =>
        waves.Sum(w => w.Amplitude * Math.Sin((2 * Math.PI * hour / w.Hours) + w.Phase));
}
