namespace CureWatch.Readings;

/// <summary>That a probe is heard and not believed.</summary>
/// <param name="Why">Why the newest of its readings was not believed.</param>
/// <param name="Since">Since when none was.</param>
/// <param name="At">When the newest arrived.</param>
public sealed record Refusal(Disbelief Why, DateTimeOffset Since, DateTimeOffset At)
{
    /// <summary>One refusal more.</summary>
    /// <param name="before">The one before; null where the last reading was believed.</param>
    /// <param name="why">Why.</param>
    /// <param name="at">When it arrived.</param>
    /// <returns>The refusal; since the first of those for the same reason.</returns>
    internal static Refusal Of(Refusal? before, Disbelief why, DateTimeOffset at) => new(why, before?.Why == why ? before.Since : at, at);

    /// <summary>Whether a reading that is refused so tells of its probe: of its sensor, its twins or a lamp, and not of the way the message took.</summary>
    /// <param name="why">Why it is refused.</param>
    /// <returns>True where the probe was heard all the same.</returns>
    public static bool TellsOfTheProbe(Disbelief why) =>
        why is Disbelief.OutOfRange or Disbelief.Implausible or Disbelief.Frozen or Disbelief.Disagreeing or Disbelief.LampNear;

    /// <summary>Whether the sensor itself is at fault, so that somebody has to look at it.</summary>
    /// <param name="why">Why it is refused.</param>
    /// <returns>True for what no sound sensor says.</returns>
    public static bool IsTheSensors(Disbelief why) => why is Disbelief.OutOfRange or Disbelief.Implausible or Disbelief.Frozen;

    /// <summary>Whether it is refused for its instant: the probe was heard, and its clock or the way it took is at fault.</summary>
    /// <param name="why">Why it is refused.</param>
    /// <returns>True where somebody has to set a clock, or look at a network.</returns>
    public static bool IsForItsInstant(Disbelief why) => why is Disbelief.Late or Disbelief.Future;
}
