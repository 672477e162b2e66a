using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Figures as people read them in the bay: to a tenth.</summary>
internal static class Figures
{
    private const string Tenth = "0.#";

    public static Figure Degrees(double celsius) => new Figure.Temperature(Tenths(celsius), Tenth);

    public static Figure Kelvins(double kelvins) => new Figure.Difference(Tenths(kelvins), Tenth);

    public static Sentence Percent(double percent) => $"{Tenths(percent):0.#} %";

    public static Sentence Capital(Sentence words) => words.Capital();

    private static double Tenths(double number) => Math.Round(number, 1) + 0.0; // + 0.0 turns -0 into 0
}
