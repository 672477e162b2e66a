using CureWatch.Curing;
using CureWatch.Psychrometrics;
using CureWatch.Tests.Bays;
using CureWatch.Units;

namespace CureWatch.Tests.Days;

/// <summary>A day in a bay that drifts within the limits of science (4 K/h, and 3 K/h for its dew point), told by probes as coarse as real ones, with faults.</summary>
/// <param name="Seed">How the bay drifts.</param>
/// <param name="StepK">Resolution of temperatures [K].</param>
/// <param name="StepPct">Resolution of humidities [% RH].</param>
/// <param name="HasTwin">Whether a second air probe measures the same.</param>
internal sealed record StuckDay(int Seed, double StepK, double StepPct, bool HasTwin)
{
    public const double LastHour = 17;

    /// <summary>What goes wrong with which probe, from one hour to another.</summary>
    public sealed record Fault(Kind Kind, double From, double Length)
    {
        public bool Is(Kind kind, double hour) => kind == Kind && hour > From && hour < From + Length;
    }

    public enum Kind
    {
        HumidityStuck,
        TemperatureStuck,
        AirStuck,
        PanelStuck,
        AirSilent,
        PanelSilent,
    }

    public TestShop Whole => Told([]);

    public TestShop Told(params Fault[] faults)
    {
        var drift = new Drift(Seed);
        TestShop shop = new(probes: HasTwin
            ? [TestShop.Air("air-1"), TestShop.Air("air-2"), TestShop.Panel("panel-1")]
            : [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        (double c, double pct, double panelC) = (0, 0, 0);
        for (int minute = 0; minute <= LastHour * 60; minute++)
        {
            double hour = minute / 60.0;
            (double airC, double airPct, double nowPanelC) = drift.At(hour);
            (airC, airPct, nowPanelC) = (Round(airC, StepK), Round(airPct, StepPct), Round(nowPanelC, StepK));
            c = Is(Kind.TemperatureStuck) || Is(Kind.AirStuck) ? c : airC;
            pct = Is(Kind.HumidityStuck) || Is(Kind.AirStuck) ? pct : airPct;
            panelC = Is(Kind.PanelStuck) ? panelC : nowPanelC;
            if (!Is(Kind.AirSilent))
            {
                shop.Read(hour, c, pct);
            }

            if (HasTwin)
            {
                shop.Read(hour, airC, airPct, "air-2");
            }

            if (!Is(Kind.PanelSilent))
            {
                shop.ReadPanel(hour, panelC);
            }

            _ = minute switch
            {
                60 => shop.Tap(1, Did.Applied),
                63 => shop.Tap(hour, Did.Levelled),
                _ => shop,
            };

            bool Is(Kind kind) => faults.Any(f => f.Is(kind, hour));
        }

        return shop.Until(LastHour);
    }

    private static double Round(double value, double step) => Math.Round(Math.Round(value / step) * step, 3);

    /// <summary>From hour to hour anywhere within its limits; now and then it keeps still for an hour.</summary>
    private sealed class Drift
    {
        private readonly (double C, double DewC)[] _hours;

        public Drift(int seed)
        {
            var random = new Random(seed);
            _hours = new (double, double)[20];
            _hours[0] = (20, 8);
            for (int i = 1; i < _hours.Length; i++)
            {
                double c = Math.Clamp(_hours[i - 1].C + Step(3.5), 16, 24);
                _hours[i] = (c, Math.Clamp(_hours[i - 1].DewC + Step(2.5), 4, c - 6));
            }

            double Step(double most) => random.Next(4) == 0 ? 0 : most * ((2 * random.NextDouble()) - 1);
        }

        public (double AirC, double Pct, double PanelC) At(double hour)
        {
            int i = (int)hour;
            double share = hour - i, c = Mix(_hours[i].C, _hours[i + 1].C), dew = Mix(_hours[i].DewC, _hours[i + 1].DewC);
            double pct = 100 * SaturationPressure.OverWaterPa(new Celsius(dew).Kelvins) / SaturationPressure.OverWaterPa(new Celsius(c).Kelvins);
            return (c + (0.03 * Math.Sin(89 * hour)), pct + (0.1 * Math.Sin(113 * hour)), c - 0.5 + (0.03 * Math.Sin(97 * hour)));

            double Mix(double a, double b) => a + ((b - a) * share);
        }
    }
}
