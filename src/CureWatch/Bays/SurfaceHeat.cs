using System.Collections.Immutable;
using CureWatch.Panels;

namespace CureWatch.Bays;

/// <summary>Names a surface of a car.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="Surface">The surface.</param>
public readonly record struct SurfaceKey(string Job, string Surface);

/// <summary>What people told of the temperature of one surface alone.</summary>
/// <param name="Material">What it is made of.</param>
/// <param name="Place">Where it is.</param>
/// <param name="TimeConstant">How fast it follows what is around it.</param>
/// <param name="Spots">Its temperature as it was read by hand, in order.</param>
/// <param name="Lamps">When a lamp was on it, in order.</param>
public sealed record SurfaceHeat(
    Material Material, Place Place, TimeSpan TimeConstant, ImmutableArray<PanelSpot> Spots, ImmutableArray<Spell> Lamps);
