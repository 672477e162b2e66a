namespace CureWatch.Tests.Bays;

/// <summary>
/// A bay with its own weather, walls, heating and coat: no law of it is the library's, only the sheet's numbers are known to both. The coat's truth and the probe
/// are off by what a sheet and a probe may be off,
/// and the panel, where nobody measures it, by the kelvin of a modelled one.
/// </summary>
internal sealed class SimulatedBay
{
    private const double StepHours = 1.0 / 60;
    private const double WallsHours = 9, AirChangesPerHour = 0.25, PanelHours = 0.25, HeaterKelvinsPerHour = 7;
    private const double GasConstant = 8.314462618;

    private readonly Random _random;
    private readonly double _outdoorMeanC, _outdoorSwingC, _outdoorPa;
    private readonly double _hoursOff, _energyOff, _exponentOff, _probeK, _probePct, _panelOffK;
    private double _weatherK, _airC, _panelC, _pascals;

    public SimulatedBay(int seed)
    {
        _random = new Random(seed);
        _outdoorMeanC = 9 + (5 * _random.NextDouble());
        _outdoorSwingC = 3 + (3 * _random.NextDouble());
        _outdoorPa = 0.75 * Saturation(_outdoorMeanC - 1);
        (_hoursOff, _energyOff, _exponentOff) = (0.05 * Normal(), 2_500 * Normal(), 0.06 * Normal());
        (_probeK, _probePct) = (0.3 * ((2 * _random.NextDouble()) - 1), 2 * ((2 * _random.NextDouble()) - 1));
        _panelOffK = Normal();
        (_airC, _panelC, _pascals) = (_outdoorMeanC + 3, _outdoorMeanC + 3, _outdoorPa);
    }

    /// <summary>The time since the beginning [h]; the beginning is eight in the morning.</summary>
    public double Hour { get; private set; }

    /// <summary>The temperature that the heating holds; null while it is off.</summary>
    public double? ThermostatC { get; set; }

    /// <summary>What the coat has truly earned, in shares of its keep-dry [1]; null before it is levelled.</summary>
    public double? Earned { get; private set; }

    public double DryHour { get; private set; } = double.PositiveInfinity;

    public (double AirC, double HumidityPct) Probe =>
        (_airC + _probeK, Math.Clamp((100 * _pascals / Saturation(_airC)) + _probePct, 1, 99.9));

    /// <summary>What a probe on the panel tells [°C]: off by as much as the one of the air.</summary>
    public double PanelC => _panelC + _probeK;

    public void Level() => Earned = 0;

    /// <summary>Lives on to an hour, and has a reading told every quarter of an hour.</summary>
    public void Live(double untilHour, Action<double, double, double> tell)
    {
        for (int minute = 0; Hour < untilHour - (StepHours / 2); minute++)
        {
            Step();
            if (minute % 15 == 14)
            {
                (double airC, double humidityPct) = Probe;
                tell(Hour, airC, humidityPct);
            }
        }
    }

    private void Step()
    {
        _weatherK = (_weatherK * Math.Exp(-StepHours / 30)) + (2.5 * Math.Sqrt(1 - Math.Exp(-2 * StepHours / 30)) * Normal());
        double outdoorC = _outdoorMeanC + _weatherK + (_outdoorSwingC * Math.Cos(2 * Math.PI * (Hour - 7) / 24));
        double heatK = ThermostatC is { } set ? Math.Clamp((set - _airC) / StepHours, 0, HeaterKelvinsPerHour + ((_airC - outdoorC) / WallsHours)) : 0;
        _airC += StepHours * (((outdoorC + 3 - _airC) / WallsHours) + heatK);
        _pascals += StepHours * AirChangesPerHour * (Math.Min(_outdoorPa, Saturation(outdoorC)) - _pascals);
        _panelC += StepHours * (_airC + _panelOffK - _panelC) / PanelHours;
        Hour += StepHours;
        if (Earned is { } earned)
        {
            double activity = Math.Clamp(_pascals / Saturation(_panelC), 0.05, 0.85);
            double rate = Math.Exp((50_000 + _energyOff) / GasConstant * ((1 / 293.15) - (1 / (_panelC + 273.15)))) * Math.Pow(activity / 0.5, 0.6 + _exponentOff);
            Earned = earned + (StepHours * rate / (12 * Math.Exp(_hoursOff)));
            DryHour = earned < 1 && Earned >= 1 ? Hour : DryHour;
        }
    }

    /// <summary>Saturation over water [Pa]. Source (law): Magnus with the coefficients of WMO-No. 8.</summary>
    private static double Saturation(double c) => 611.2 * Math.Exp(17.62 * c / (243.12 + c));

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
