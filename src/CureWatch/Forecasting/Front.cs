using System.Collections.Immutable;

namespace CureWatch.Forecasting;

/// <summary>A warm front that may come, whatever the days before were: outdoors it gets moister and warmer within hours.</summary>
/// <param name="FromHours">When it begins [h ahead].</param>
/// <param name="RisesLn">By how much the vapour pressure outdoors rises [1].</param>
/// <remarks>
/// Equation: ln e ← ln e + D(1 − e^(−t/τ)) for t hours since it began, D by how much moister than the bay it becomes outdoors; the walls warm more slowly. Source (choice), common
/// practice without a source: one comes in five days, at any hour; the dew point outdoors then rises by 5 to 10 K, the air by 4 to 9 K. The default does nothing.
/// </remarks>
internal readonly record struct Front(double FromHours, double RisesLn)
{
    /// <summary>The chance that one begins within a day [1].</summary>
    public const double Chance = 0.2;

    private const double LeakHours = 7, WarmingHours = 20;
    private const double KelvinsPerLn = 13;
    private const double WeakestLn = 0.3, StrongestLn = 0.7;

    /// <summary>How much moister than outdoors a bay is where nobody measures there [1].</summary>
    private const double IndoorMoisture = 0.15;
    private const int Count = 48, Strengths = 12, Mixing = 7;
    private const double HoursPerDay = 24;

    /// <summary>Fronts of all strengths, as likely as each other, spread evenly over the day ahead.</summary>
    public static ImmutableArray<Front> All { get; } =
    [
        .. Enumerable.Range(0, Count).Select(i => new Front(
            HoursPerDay * (i + 0.5) / Count, WeakestLn + ((StrongestLn - WeakestLn) * ((i * Mixing % Strengths) + 0.5) / Strengths))),
    ];

    /// <summary>What it adds to a bay's air temperature [K] and the logarithm of its vapour pressure [1] by some hours ahead.</summary>
    public (double Kelvins, double LnPa) At(double hours, AirNow now)
    {
        double since = Math.Max(0, hours - FromHours);
        double moister = now.Outdoors is { } outdoors ? Math.Log(now.VapourPressurePa / outdoors.VapourPressurePa) : IndoorMoisture;
        return (RisesLn * KelvinsPerLn * (1 - Math.Exp(-since / WarmingHours)), Math.Max(0, RisesLn - moister) * (1 - Math.Exp(-since / LeakHours)));
    }
}
