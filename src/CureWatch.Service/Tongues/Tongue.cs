using System.Globalization;
using System.Runtime.CompilerServices;
using CureWatch.Units;
using CureWatch.Words;

namespace CureWatch.Service.Tongues;

/// <summary>How whoever asks is spoken to: what a page says goes through it.</summary>
internal sealed class Tongue(Language language, bool isFahrenheit) : ITongue
{
    /// <summary>English and °C.</summary>
    public static Tongue Plain { get; } = new(Language.English, isFahrenheit: false);

    public Language Language => language;

    public bool IsFahrenheit => isFahrenheit;

    /// <summary>The letter of the degrees, as forms have it.</summary>
    public string Sign => isFahrenheit ? TongueOfRequest.FahrenheitSign : "C";

    /// <summary>The sign of the degrees.</summary>
    public string Degrees => isFahrenheit ? "°F" : "°C";

    public NumberFormatInfo Numbers => language.Numbers;

    public DateTimeFormatInfo Calendar => language.Calendar;

    /// <summary>What stands for an English phrase without figures.</summary>
    public string this[string english] => Phrase(english);

    /// <summary>A sentence, with figures or without; nothing where there is none.</summary>
    [OverloadResolutionPriority(1)]
    public string this[Sentence? sentence] => sentence?.SaidIn(this) ?? "";

    public string this[Figure? figure] => figure?.SaidIn(this) ?? "";

    public string Phrase(string english) => language.Book.Find(english);

    /// <summary>A temperature in the degrees of whoever is spoken to.</summary>
    public double DegreesOf(double celsius) => isFahrenheit ? Fahrenheit.FromCelsius(celsius) : celsius;

    /// <summary>How far two temperatures are apart, in the degrees of whoever is spoken to.</summary>
    public double DifferenceOf(double kelvins) => isFahrenheit ? Fahrenheit.PerKelvin * kelvins : kelvins;

    /// <summary>The sign of such a difference.</summary>
    public string DifferenceSign => isFahrenheit ? "°F" : "K";

    /// <summary>A number with as many places as a format has.</summary>
    public string Number(double value, string format) => (value + 0.0).ToString(format, Numbers);
}
