namespace CureWatch.Handover;

/// <summary>What people in a shop are about.</summary>
public enum DayPart
{
    /// <summary>They work, or the shop never closes.</summary>
    Work,

    /// <summary>They are about to lock up.</summary>
    LockUp,

    /// <summary>Nobody is there.</summary>
    Closed,

    /// <summary>They have just come in.</summary>
    Morning,
}

/// <summary>Tells the parts of a shop's day.</summary>
public static class DayParts
{
    /// <summary>How long before closing people think of the night. Source (choice): what is found then can still be levelled, dried or warmed.</summary>
    private static readonly TimeSpan LockUpTakes = TimeSpan.FromHours(1);

    /// <summary>How long after opening the night is the first thing to know. Source (choice).</summary>
    private static readonly TimeSpan MorningTakes = TimeSpan.FromHours(1);

    /// <summary>Finds the part of the day at an instant.</summary>
    /// <param name="hours">When the shop is open.</param>
    /// <param name="now">The instant.</param>
    /// <returns>The part. A shop that never closes, or never opens, knows neither lock-up nor morning.</returns>
    /// <remarks>Edges: on a day shorter than both, lock-up goes before morning; a day that began before midnight has no second morning.</remarks>
    public static DayPart At(OpeningHours hours, DateTimeOffset now)
    {
        if (hours.DayAt(now) is not { LocksUp: { } locksUp } day)
        {
            return DayPart.Work;
        }

        bool wasShut = hours.DayAt(day.Opens.AddTicks(-1))?.Opens == day.Opens;
        return now < day.Opens ? DayPart.Closed
            : now >= locksUp - LockUpTakes ? DayPart.LockUp
            : now < day.Opens + MorningTakes && wasShut ? DayPart.Morning
            : DayPart.Work;
    }
}
