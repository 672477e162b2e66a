using CureWatch.Curing;
using CureWatch.TimeWindows;
using CureWatch.Words;

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
    public Sentence Name =>
        (Surface.Layers > 1 || Layer > 1, Surface.Sections > 1 ? Section : null) switch
        {
            (true, { } section) => $"{Surface.Name}, layer {Layer}, section {section}",
            (true, null) => $"{Surface.Name}, layer {Layer}",
            (false, { } section) => $"{Surface.Name}, section {section}",
            _ => $"{Surface.Name}",
        };
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
