using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Handover;

/// <summary>A coat, on the car or still to go on, that the collection waits for.</summary>
/// <param name="Surface">Its surface.</param>
/// <param name="Layer">Its layer.</param>
/// <param name="Section">Its section; null where it is a whole layer that is still to go on.</param>
/// <param name="Waits">What it waits for next.</param>
/// <param name="ReadyAt">When the car could go as far as this coat is concerned.</param>
public sealed record AwaitedCoat(Surface Surface, int Layer, int? Section, Awaits Waits, TimeBounds ReadyAt)
{
    /// <summary>Whether nobody ever measured the air it is, or is to be, in: then its end is not known, which is not the same as none.</summary>
    public bool IsUnmeasured { get; init; }

    /// <summary>The coat as people say it.</summary>
    public string Name =>
        Surface.Id.Replace('-', ' ')
        + (Surface.Layers > 1 || Layer > 1 ? $", layer {Layer}" : "")
        + (Section is { } section && Surface.Sections > 1 ? $", section {section}" : "");
}

/// <summary>What a coat waits for.</summary>
public enum Awaits
{
    /// <summary>To be put on.</summary>
    Application,

    /// <summary>To be levelled.</summary>
    Levelling,

    /// <summary>To be dried: water is on it that nobody told to be gone.</summary>
    Drying,

    /// <summary>For its keep-dry to end.</summary>
    KeepDry,

    /// <summary>For nothing any more.</summary>
    Nothing,
}
