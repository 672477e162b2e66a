using CureWatch.Psychrometrics;
using CureWatch.Tests.Nights;
using CureWatch.Units;

namespace CureWatch.Tests.Stills;

/// <summary>Two days of a bay, by the half minute: its air, its moisture and a panel, with people in it from eight to six.</summary>
/// <remarks>
/// Air, walls and panel are three lumps; what heats the air, what the walls give and take of warmth and moisture, a door and people are added up, and a
/// cold car may come. None of it is taken from the library but the saturation pressure. Numbers: common practice, no source.
/// </remarks>
internal sealed class LivedBay
{
    public const double Hours = 48;

    private const int StepsPerHour = 120;

    private readonly (float C, float Pct, float PanelC)[] _steps = new (float, float, float)[((int)Hours * StepsPerHour) + 1];

    public LivedBay(BayKind kind, int seed)
    {
        var chance = new Chance(seed);
        (double meanOutC, double swingK, double setC, double outPct) = kind switch
        {
            BayKind.Thermostat => (chance.Between(-2, 8), chance.Between(2, 5), chance.Between(17, 22), 80),
            BayKind.EvenlyHeated => (chance.Between(-2, 10), chance.Between(2, 5), chance.Between(17, 22), 80),
            BayKind.Unheated => (chance.Between(10, 18), chance.Between(3, 8), double.NaN, 70),
            BayKind.Sealed => (chance.Between(15, 20), chance.Between(0.5, 2), chance.Between(18, 21), 60),
            BayKind.ColdDry => (chance.Between(-4, 3), chance.Between(2, 4), chance.Between(4, 7), 55),
            BayKind.Damp => (chance.Between(8, 14), chance.Between(1, 4), double.NaN, 95),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        bool isWorkedIn = kind != BayKind.Sealed, isStepped = kind is BayKind.Thermostat or BayKind.ColdDry;
        double leakPerHour = kind == BayKind.Sealed ? 0.05 : chance.Between(0.2, 0.8), hysteresisK = chance.Between(0.25, 0.6);
        double airC = double.IsNaN(setC) ? meanOutC + 2 : setC, wallC = airC - 0.3, panelC = airC - 0.3;
        double pascals = (kind is BayKind.Damp ? 0.9 : chance.Between(0.35, 0.6)) * Saturation(airC);
        double turbulenceC = 0, driftC = 0, moistureShare = 0, panelMinutes = chance.Between(8, 30), openUntil = -1;
        double wallShare = pascals / Saturation(airC), takenUpPerHour = chance.Between(0, 2), carHour = chance.Happens(0.5) ? chance.Between(1, 40) : Hours;
        bool isOn = false;
        for (int i = 0; i < _steps.Length; i++)
        {
            const double h = 1.0 / StepsPerHour;
            double hour = i * h, clock = (8 + hour) % 24;
            bool isDay = isWorkedIn && IsDay(hour);
            openUntil = isDay && openUntil < hour && chance.Happens(0.6 * h) ? hour + chance.Between(0.02, 0.15) : openUntil;
            double outC = meanOutC + (swingK * Math.Sin(2 * Math.PI * (clock - 9) / 24));
            double outPa = outPct / 100 * Saturation(meanOutC - (0.5 * swingK));
            double leak = leakPerHour + (hour < openUntil ? 8 : 0);
            isOn = airC < setC - hysteresisK || (isOn && airC < setC + hysteresisK);
            double heatKPerHour = double.IsNaN(setC) ? 0 : isStepped ? (isOn ? 14 : 0) : Math.Clamp(12 * (setC - airC) + (1.2 * (setC - outC)), 0, 25);
            airC += h * (((outC - airC) * leak) + (4 * (wallC - airC)) + heatKPerHour + (isDay ? 0.6 : 0));
            wallC += h * ((0.5 * (airC - wallC)) + (0.02 * (outC - wallC)) + (double.IsNaN(setC) ? 0 : 0.02 * (setC - outC)));
            pascals += h * (((outPa - pascals) * leak) + (isDay ? 60 : 4) + (takenUpPerHour * ((wallShare * Saturation(airC)) - pascals)));
            wallShare += h / 12 * ((pascals / Saturation(airC)) - wallShare);
            driftC += (-driftC * h / 1.5) + ((kind == BayKind.Sealed ? 0.02 : 0.05) * Math.Sqrt(2 * h / 1.5) * chance.Normal());
            moistureShare += (-moistureShare * h) + ((kind == BayKind.Sealed ? 0.003 : 0.008) * Math.Sqrt(2 * h) * chance.Normal());
            turbulenceC += (-turbulenceC * 0.3) + ((isDay ? 0.05 : 0.015) * chance.Normal());
            double nowC = airC + driftC + turbulenceC, nowPa = Math.Min(pascals * (1 + moistureShare), 0.99 * Saturation(airC));
            panelC = hour >= carHour && hour < carHour + h ? panelC - chance.Between(3, 15) : panelC;
            panelC += (nowC - panelC) * (1 - Math.Exp(-0.5 / panelMinutes));
            _steps[i] = ((float)nowC, (float)Math.Min(100, 100 * nowPa / Saturation(nowC)), (float)panelC);
        }
    }

    public static bool IsDay(double hour) => hour % 24 < 10;

    public (double C, double Pct, double PanelC) At(double hour)
    {
        double place = Math.Clamp(hour / Hours, 0, 1) * (_steps.Length - 1);
        int i = Math.Min((int)place, _steps.Length - 2);
        (double share, (float C, float Pct, float PanelC) a, (float C, float Pct, float PanelC) b) = (place - i, _steps[i], _steps[i + 1]);
        return (a.C + ((b.C - a.C) * share), a.Pct + ((b.Pct - a.Pct) * share), a.PanelC + ((b.PanelC - a.PanelC) * share));
    }

    private static double Saturation(double celsius) => SaturationPressure.OverWaterPa(new Celsius(celsius).Kelvins);
}

/// <summary>What keeps a bay's climate.</summary>
internal enum BayKind
{
    Thermostat,
    EvenlyHeated,
    Unheated,
    Sealed,
    ColdDry,
    Damp,
}
