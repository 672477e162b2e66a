using System.Collections.Immutable;
using CureWatch.Units;

namespace CureWatch.Products;

/// <summary>What a sheet says about one stage.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="DrivenBy">The clock the stage runs on.</param>
/// <param name="Rows">Times at climates, at least one.</param>
/// <param name="IfMissed">Whether acting too late matters; only level-by uses it.</param>
public sealed record SheetStage(Stage Stage, Mechanism DrivenBy, ImmutableArray<SheetRow> Rows, IfMissed IfMissed = IfMissed.Hold);

/// <summary>One row of a sheet: how long a stage takes at one climate.</summary>
/// <param name="Temperature">Temperature of air and panel [°C].</param>
/// <param name="Humidity">Relative humidity [%].</param>
/// <param name="From">The shorter time, above zero.</param>
/// <param name="To">The longer time, not below <paramref name="From"/>; equal to it where the sheet gives one time.</param>
public sealed record SheetRow(Celsius Temperature, RelativeHumidity Humidity, TimeSpan From, TimeSpan To);

/// <summary>The stages a sheet can give times for, in the order a coat passes them.</summary>
public enum Stage
{
    /// <summary>The carrier leaves: levelling may begin at the row's From, usually ends by its To.</summary>
    Flash,

    /// <summary>The last safe moment to level.</summary>
    LevelBy,

    /// <summary>The next layer may go on.</summary>
    RecoatFrom,

    /// <summary>The next layer must be on.</summary>
    RecoatBy,

    /// <summary>No water may touch the coat.</summary>
    KeepDry,

    /// <summary>No washing.</summary>
    NoWash,

    /// <summary>The coat has all its resistance.</summary>
    FullCure,
}

/// <summary>The two clocks of a coat.</summary>
public enum Mechanism
{
    /// <summary>The carrier evaporates.</summary>
    Evaporation,

    /// <summary>The film cures.</summary>
    Cure,
}

/// <summary>Whether levelling too late matters.</summary>
public enum IfMissed
{
    /// <summary>A late levelling holds the car until someone inspected it.</summary>
    Hold,

    /// <summary>A late levelling is worth a note, no more (a dressing left longer).</summary>
    Note,
}
