namespace CureWatch.Readings;

/// <summary>Why a reading is not believed.</summary>
public enum Disbelief
{
    /// <summary>It lacks what its probe measures.</summary>
    Malformed,

    /// <summary>Its payload is larger than any reading.</summary>
    TooLarge,

    /// <summary>No probe of that name is set up in that bay.</summary>
    UnknownProbe,

    /// <summary>No sensor of its kind can have measured that.</summary>
    OutOfRange,

    /// <summary>It jumped further than the thing it measures can.</summary>
    Implausible,

    /// <summary>The probe repeats one value far longer than it is used to.</summary>
    Frozen,

    /// <summary>The probe has already told that instant.</summary>
    Duplicate,

    /// <summary>It came too long after it was measured.</summary>
    Late,

    /// <summary>It claims to have been measured after it arrived.</summary>
    Future,

    /// <summary>The broker kept it, and nobody can tell since when.</summary>
    RetainedWithoutTime,

    /// <summary>It is a push-button's tap for a job nobody began.</summary>
    UnknownJob,

    /// <summary>It is a tap that a broker kept: told again at every connection, it would count every time.</summary>
    RetainedTap,

    /// <summary>Two probes or more that agree with each other say otherwise of the same air or the same material.</summary>
    Disagreeing,

    /// <summary>A lamp warms the probe: its vapour pressure counts, its temperature does not.</summary>
    LampNear,

    /// <summary>Whoever sent it may not speak for that probe.</summary>
    NotItsSender,
}
