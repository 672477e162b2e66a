using System.Globalization;

namespace CureWatch.Service.Demo;

/// <summary>A probe of the demo: what it measures, how often, and the words it was built to say it in.</summary>
/// <param name="Bay">Its bay.</param>
/// <param name="Id">Its id.</param>
/// <param name="Topic">Where it publishes.</param>
/// <param name="First">Its first reading, counted from the start of the day: no two probes speak in the same second.</param>
/// <param name="Every">How often it reports.</param>
/// <param name="Of">The thing it measures.</param>
/// <param name="Words">How it says it.</param>
internal sealed record DemoProbe(string Bay, string Id, string Topic, TimeSpan First, TimeSpan Every, Measured Of, PayloadForm Words)
{
    /// <summary>Noise of a usual sensor [K], [% RH]. Source (choice).</summary>
    private const double NoiseK = 0.05, NoisePct = 0.4;

    /// <summary>Every probe of the shop. Source (choice): as in config/demo/shop.json.</summary>
    public static IReadOnlyList<DemoProbe> All { get; } =
    [
        Usual("bay-1", "air", 4, 60, Measured.Air1),
        Usual("bay-1", "bonnet", 11, 120, Measured.Steel),
        new("bay-1", "screen", "ottermoss/bay-1/screen", Seconds(17), Seconds(120), Measured.Glass, PayloadForm.BareNumber),
        Usual("bay-1", "wheels", 27, 120, Measured.Wheels),
        Usual("bay-2", "air", 39, 120, Measured.Air2),
        new("bay-1", "yard", "ottermoss/yard/weather-post", Seconds(53), Seconds(300), Measured.Yard, PayloadForm.WeatherPost),
    ];

    /// <summary>What the probe tells of a state of the shop.</summary>
    /// <param name="hall">The state.</param>
    /// <param name="number">Which of its readings, from 0: its noise follows from that alone.</param>
    public DemoSample SampleOf(HallState hall, int number)
    {
        double temperatureC = hall.TemperatureC(Of) + (NoiseK * Noise.At($"{Bay}/{Id}/t", number));
        double noisePct = NoisePct * Noise.At($"{Bay}/{Id}/h", number);
        return new DemoSample(
            Math.Round(temperatureC, 2), hall.HumidityPct(Of) is { } pct ? Math.Round(Math.Clamp(pct + noisePct, 1, 100), 1) : null);
    }

    public string PayloadOf(DateTimeOffset at, DemoSample sample)
    {
        string time = at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
        return Words switch
        {
            PayloadForm.Usual when sample.HumidityPct is { } pct =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $$"""{"at":"{{time}}","temperatureC":{{sample.TemperatureC}},"humidityPct":{{pct}}}"""),
            PayloadForm.Usual =>
                string.Create(CultureInfo.InvariantCulture, $$"""{"at":"{{time}}","temperatureC":{{sample.TemperatureC}}}"""),
            PayloadForm.BareNumber => sample.TemperatureC.ToString(CultureInfo.InvariantCulture),
            _ => string.Create(
                CultureInfo.InvariantCulture,
                $$$"""{"sent":"{{{time}}}","outdoor":{"temperature":{{{Fahrenheit(sample)}}},"humidity":{{{sample.HumidityPct}}}}}"""),
        };
    }

    private static double Fahrenheit(DemoSample sample) => Math.Round((sample.TemperatureC * 1.8) + 32, 1);

    private static DemoProbe Usual(string bay, string id, int firstSecond, int everySeconds, Measured of) =>
        new(bay, id, $"{DemoDay.Root}/{bay}/probe/{id}", Seconds(firstSecond), Seconds(everySeconds), of, PayloadForm.Usual);

    private static TimeSpan Seconds(int seconds) => TimeSpan.FromSeconds(seconds);
}

/// <summary>What there is to measure in the demo's shop.</summary>
internal enum Measured
{
    Air1,
    Air2,
    Steel,
    Glass,
    Wheels,
    Yard,
}

/// <summary>How a probe of the demo words its readings.</summary>
internal enum PayloadForm
{
    /// <summary>The keys that need no mapping.</summary>
    Usual,

    /// <summary>A bare number, and no time.</summary>
    BareNumber,

    /// <summary>A document of its own shape, in °F.</summary>
    WeatherPost,
}
