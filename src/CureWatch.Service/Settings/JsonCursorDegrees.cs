using CureWatch.Units;

namespace CureWatch.Service.Settings;

/// <summary>Temperatures and differences of them, told in the unit that their key ends with. Sheets are printed in °F in some places.</summary>
internal sealed partial class JsonCursor
{
    /// <summary>The keys under which a temperature may stand.</summary>
    public static string[] DegreesOf(params string[] stems) => [.. stems.SelectMany(s => new[] { $"{s}C", $"{s}F" })];

    /// <summary>A temperature under a key that ends with C, or with F.</summary>
    /// <param name="stem">The key without its unit.</param>
    /// <param name="range">What is allowed, in °C.</param>
    /// <param name="isNeeded">Whether one of the two has to be there.</param>
    /// <returns>The temperature [°C].</returns>
    public double? Celsius(string stem, NumberRange range, bool isNeeded = false)
    {
        if (isNeeded && IsObject && this[$"{stem}C"].IsAbsent && this[$"{stem}F"].IsAbsent)
        {
            this[$"{stem}C"].Refuse("nothing", $"the key {stem}C or {stem}F, one of which is required");
        }

        return Either(stem, "C", range) ?? (this[$"{stem}F"].Number(range.InFahrenheit(Fahrenheit.AtZeroCelsius)) is { } read ? Fahrenheit.ToCelsius(read) : null);
    }

    /// <summary>A difference of temperatures under a key that ends with K, or with F: 5.4 °F apart is 3 K.</summary>
    /// <param name="stem">The key without its unit.</param>
    /// <param name="range">What is allowed, in K.</param>
    /// <returns>The difference [K].</returns>
    public double? Kelvins(string stem, NumberRange range) =>
        Either(stem, "K", range) ?? this[$"{stem}F"].Number(range.InFahrenheit(0)) / Fahrenheit.PerKelvin;

    /// <summary>Where a temperature stands.</summary>
    public JsonCursor DegreesAt(string stem) => this[$"{stem}F"] is { IsAbsent: false } told ? told : this[$"{stem}C"];

    /// <summary>A temperature in the unit of a key, for whoever is told what is wrong with it.</summary>
    /// <param name="stem">The key without its unit.</param>
    /// <param name="celsius">The temperature [°C].</param>
    public string InUnitOf(string stem, double celsius) =>
        this[$"{stem}F"].IsAbsent ? $"{Math.Round(celsius, 2)} °C" : $"{Math.Round(Fahrenheit.FromCelsius(celsius), 2)} °F";

    private double? Either(string stem, string unit, NumberRange range)
    {
        JsonCursor usual = this[$"{stem}{unit}"], other = this[$"{stem}F"];
        if (!usual.IsAbsent && !other.IsAbsent)
        {
            other.Refuse($"{stem}{unit} or {stem}F, not both");
        }

        return usual.Number(range);
    }
}
