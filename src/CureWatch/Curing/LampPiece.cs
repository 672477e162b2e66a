namespace CureWatch.Curing;

/// <summary>A stretch under a lamp, and whether it counts.</summary>
/// <param name="From">Its start.</param>
/// <param name="To">Its end, after the start.</param>
/// <param name="Verdict">Whether it counts, or why not.</param>
/// <param name="ReferenceHoursPerMinute">What the sheet gives for a minute of it [h/min]; 0 where it does not count.</param>
public sealed record LampPiece(DateTimeOffset From, DateTimeOffset To, LampVerdict Verdict, double ReferenceHoursPerMinute)
{
    /// <summary>How long it is [min].</summary>
    public double Minutes => (To - From).TotalMinutes;
}

/// <summary>Whether a stretch under a lamp counts, or why not.</summary>
public enum LampVerdict
{
    /// <summary>It counts: the surface's own readings lie in the sheet's band.</summary>
    Credited,

    /// <summary>The surface was colder than the band, on its way up or down.</summary>
    RampUp,

    /// <summary>The surface was hotter than the band.</summary>
    TooHot,

    /// <summary>The sheet wants the coat to cure longer before a lamp.</summary>
    TooEarly,

    /// <summary>The sheet's longest time under the lamp was used up.</summary>
    TooLong,

    /// <summary>Nobody read the surface itself, or not often enough.</summary>
    NoOwnReading,
}
