namespace CureWatch.Readings;

/// <summary>What speaks against a value that is repeated.</summary>
public enum StillReason
{
    /// <summary>Nothing but that it lasts far longer than this probe is used to.</summary>
    Unusual,

    /// <summary>The probe's other quantity moved: a temperature takes the humidity along, a humidity may move by itself.</summary>
    OtherMoved,

    /// <summary>A probe of something else moved, which would hardly have moved alone: a panel in this air, or the air around the panel.</summary>
    NeighbourMoved,

    /// <summary>Another probe of the same thing moved.</summary>
    TwinMoved,

    /// <summary>It lasts for so long that the probe is refused, and people are told that it is stuck.</summary>
    Refused,

    /// <summary>It is of a panel far from the air around it, which it would have come nearer to.</summary>
    FarFromAir,

    /// <summary>It ended in a jump: what lies between was not seen.</summary>
    Jumped,

    /// <summary>
    /// It lasts longer than is likely of a sound probe, or something near it moved a little, which proves nothing: nobody is told, and what it may have become
    /// meanwhile counts by the pace of a bay in which nobody notices anything.
    /// </summary>
    Suspected,
}
