namespace CureWatch.Planning;

/// <summary>Figures as people read them in the bay: to a tenth.</summary>
internal static class Figures
{
    public static string Degrees(double celsius) => $"{Tenths(celsius):0.#} °C";

    public static string Kelvins(double kelvins) => $"{Tenths(kelvins):0.#} K";

    public static string Percent(double percent) => $"{Tenths(percent):0.#} %";

    public static string Capital(string text) => $"{char.ToUpperInvariant(text[0])}{text[1..]}";

    private static double Tenths(double number) => Math.Round(number, 1) + 0.0; // + 0.0 turns -0 into 0
}
