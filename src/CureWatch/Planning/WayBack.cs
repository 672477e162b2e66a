using CureWatch.Forecasting;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>What a car's promise would be if something were done.</summary>
/// <param name="Chance">The chance to make it [1].</param>
/// <param name="CollectFrom">From when it could be collected by the slow bound; null where nobody can tell.</param>
public sealed record Prospect(double Chance, DateTimeOffset? CollectFrom);

/// <summary>Something that makes a promise, or comes nearest to it: the least of its kind.</summary>
/// <param name="Kind">What is done.</param>
/// <param name="With">With what, in words that follow "with".</param>
/// <param name="AirC">The air temperature to hold, at least [°C]; null where it is not changed.</param>
/// <param name="HumidityPct">The humidity that the air then has where it is heated, or is to be brought to [% RH].</param>
/// <param name="LampMinutes">Minutes inside the sheet's band under a lamp, by surface, one after the other; empty without a lamp.</param>
/// <param name="Until">Until when it is done at most; null where it may go on overnight.</param>
/// <param name="Then">What follows.</param>
/// <param name="IsEnough">Whether that makes the promise with the chance asked for.</param>
public sealed record WayBack(
    WayKind Kind,
    Sentence With,
    double? AirC,
    double? HumidityPct,
    IReadOnlyList<(string Surface, int Minutes)> LampMinutes,
    DateTimeOffset? Until,
    Prospect Then,
    bool IsEnough);

/// <summary>What can be done about a cure.</summary>
public enum WayKind
{
    /// <summary>Hold the bay warmer, its moisture kept.</summary>
    Heat,

    /// <summary>Put moisture into the air.</summary>
    Moisten,

    /// <summary>Take moisture out of the air.</summary>
    Dry,

    /// <summary>Hold the bay warmer, and as moist as it is now.</summary>
    HeatAndMoisten,

    /// <summary>Cure single surfaces under a lamp.</summary>
    Lamp,

    /// <summary>Let drier air in from outdoors.</summary>
    Air,
}

/// <summary>How far a bay's climate may be changed.</summary>
/// <param name="AirC">Its air at present [°C].</param>
/// <param name="VapourPressurePa">Its moisture at present [Pa].</param>
/// <param name="WarmestC">The warmest that every coat in it, and every surface of the car, can take [°C].</param>
/// <param name="DriestPct">The driest that every coat in it can take [% RH].</param>
/// <param name="MoistestPct">The moistest that every coat in it can take, its panels staying dry [% RH].</param>
/// <param name="Heat">What it is heated with; null where it has nothing that may be used now.</param>
/// <param name="HeatUntil">Until when that may be used; null where it may be overnight.</param>
/// <param name="Moisten">What it is moistened with; null where it has nothing.</param>
/// <param name="Dry">What it is dried with; null where it has nothing.</param>
public sealed record ClimateReach(
    double AirC,
    double VapourPressurePa,
    double WarmestC,
    double DriestPct,
    double MoistestPct,
    Sentence? Heat,
    DateTimeOffset? HeatUntil,
    Sentence? Moisten,
    Sentence? Dry)
{
    /// <summary>The outdoor air it is worth airing with [K, Pa]; null where it has nothing to air with, or outdoors it is not drier by enough.</summary>
    public (double Kelvins, double VapourPressurePa)? AiredWith { get; init; }

    /// <summary>The coldest that every coat in it can take [°C]: airing cools.</summary>
    public double ColdestC { get; init; } = double.NegativeInfinity;

    /// <summary>How the bay would be held, for as long as it may be.</summary>
    /// <param name="held">What is done.</param>
    /// <param name="now">The present.</param>
    /// <returns>The same, ending when whoever attends it goes.</returns>
    internal ClimateHeld While(ClimateHeld held, DateTimeOffset now) => HeatUntil is { } until && held.LeastAirKelvins is not null
        ? held with { ForHours = (until - now).TotalHours }
        : held;
}
