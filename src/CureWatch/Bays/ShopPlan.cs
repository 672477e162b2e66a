using System.Collections.Immutable;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;

namespace CureWatch.Bays;

/// <summary>A shop as it is set up.</summary>
/// <param name="Shop">The shop's id.</param>
/// <param name="Hours">When it is open.</param>
/// <param name="Finishing">Hands-on time between the end of keep-dry and the collection.</param>
/// <param name="Bays">Its bays.</param>
public sealed record ShopPlan(string Shop, OpeningHours Hours, TimeSpan Finishing, ImmutableArray<BayPlan> Bays)
{
    /// <summary>How it gets panels ready and how fast its people work.</summary>
    public WorkHabits Habits { get; init; } = WorkHabits.Usual;

    /// <summary>How fast a section is worked here.</summary>
    public SectionPace Pace => Habits.Pace;
}

/// <summary>A bay as it is set up.</summary>
/// <param name="Bay">The bay's id.</param>
/// <param name="PressureHpa">Station pressure [hPa].</param>
/// <param name="Airspace">Bays with the same airspace share their air.</param>
/// <param name="Equipment">What the bay can do about its climate.</param>
/// <param name="Probes">The probes in it.</param>
public sealed record BayPlan(
    string Bay, double PressureHpa, string Airspace, ImmutableArray<Equipment> Equipment, ImmutableArray<ProbeMount> Probes);

/// <summary>What a bay can do about its climate.</summary>
public enum Equipment
{
    /// <summary>Heating that is part of the building.</summary>
    FixedHeating,

    /// <summary>A heater that is carried in; never advised overnight.</summary>
    PortableHeater,

    /// <summary>A dehumidifier.</summary>
    Dehumidifier,

    /// <summary>A humidifier.</summary>
    Humidifier,

    /// <summary>Extraction to the outdoors.</summary>
    Extraction,

    /// <summary>A curing lamp; never advised overnight.</summary>
    Lamp,
}
