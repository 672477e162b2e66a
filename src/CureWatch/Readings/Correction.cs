using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Readings;

/// <summary>Reads what a probe told, with the calibration that holds when it was measured.</summary>
internal static class Correction
{
    /// <summary>The reading in °C, its humidity as it is: that is clamped to what air can hold.</summary>
    public static RawReading Of(Probe probe, RawReading raw, DateTimeOffset at)
    {
        double offsetK = probe.OffsetAt(at).TemperatureK;
        return raw with { AirC = raw.AirC + offsetK, PanelC = probe.Measures == Measures.Panel ? raw.PanelC + offsetK : raw.PanelC };
    }

    /// <summary>What it says of the thing the probe is for.</summary>
    public static Sample Own(Probe probe, RawReading raw, DateTimeOffset at) =>
        probe.Measures == Measures.Panel ? Panel(probe, raw.PanelC!.Value, at) : Air(probe, raw, at);

    public static Sample Panel(Probe probe, double panelC, DateTimeOffset at)
    {
        double offsetK = probe.Measures == Measures.Panel ? probe.OffsetAt(at).TemperatureK : 0;
        return new Sample(at, new Celsius(panelC + offsetK).Kelvins, 0, 0);
    }

    private static Sample Air(Probe probe, RawReading raw, DateTimeOffset at)
    {
        (double offsetK, double offsetPct) = probe.OffsetAt(at);
        var air = new Celsius(raw.AirC!.Value + offsetK);
        var humidity = new RelativeHumidity(Math.Clamp(raw.HumidityPct!.Value + offsetPct, 1, 100));
        return new Sample(at, air.Kelvins, humidity.Fraction * SaturationPressure.OverWaterPa(air.Kelvins), humidity.Percent);
    }
}
