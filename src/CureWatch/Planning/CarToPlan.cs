using System.Collections.Immutable;

namespace CureWatch.Planning;

/// <summary>A car none of whose coats is begun.</summary>
/// <param name="Job">Its job's id.</param>
/// <param name="Bay">The bay it is planned for.</param>
/// <param name="Airspace">The bay's air.</param>
/// <param name="Surfaces">Its surfaces, in the order they were planned.</param>
/// <param name="ComesAt">When it comes; null where it is here.</param>
/// <param name="AskedAt">When somebody wants to begin; null where nobody said.</param>
/// <param name="PromisedAt">The pick-up time told to the customer; null where none was.</param>
public sealed record CarToPlan(
    string Job, string Bay, string Airspace, ImmutableArray<SurfaceToPlan> Surfaces, DateTimeOffset? ComesAt, DateTimeOffset? AskedAt, DateTimeOffset? PromisedAt)
{
    /// <summary>Whether it comes as cold or warm as nobody knows.</summary>
    public bool IsColdUnknown { get; init; }

    /// <summary>How cold it may come then [°C]: what is reckoned with then.</summary>
    public double ColdestArrivalC { get; init; }

    /// <summary>What its bay has to change its climate.</summary>
    public ClimateMeans Means { get; init; } = ClimateMeans.None;

    /// <summary>Whether the air there is moister than one of its sheets allows.</summary>
    public bool IsAirMoist { get; init; }
}

/// <summary>A surface of a car none of whose coats is begun.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Sections">Its sections.</param>
/// <param name="DryFrom">From when on it is dry enough, counted from the slow bound; null where never in this air.</param>
/// <param name="Times">How long each of its layers takes; empty where nobody measures the air it will be in.</param>
/// <param name="Risks">How long each of its layers is at risk.</param>
public sealed record SurfaceToPlan(
    string Surface, int Sections, DateTimeOffset? DryFrom, ImmutableArray<CoatTimes> Times, ImmutableArray<RiskTimes> Risks)
{
    /// <summary>The first layer that is to go on, from 1: those below it were found clear without.</summary>
    public int First { get; init; } = 1;
}

/// <summary>When a bay is free for the next car.</summary>
/// <param name="IsKnown">Whether anybody can tell.</param>
/// <param name="At">When; null where it is free now, or nobody can tell.</param>
/// <param name="Job">Whose car is in the way; null where none is.</param>
public sealed record BayFree(bool IsKnown, DateTimeOffset? At, string? Job)
{
    /// <summary>A bay without a car.</summary>
    public static BayFree Now { get; } = new(true, null, null);

    /// <summary>The bay once another car has been in it too.</summary>
    /// <param name="at">When that one leaves; null where nobody can tell.</param>
    /// <param name="job">Its job.</param>
    /// <returns>When both are gone.</returns>
    public BayFree After(DateTimeOffset? at, string job) =>
        !IsKnown ? this : at is null ? new BayFree(false, null, job) : At >= at ? this : new BayFree(true, at, job);
}
