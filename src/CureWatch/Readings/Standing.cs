namespace CureWatch.Readings;

/// <summary>How long one quantity of a probe repeats its value, how long it is used to, and what the other one did meanwhile.</summary>
/// <param name="Value">The value it repeats now, as the probe told it [°C], [% RH].</param>
/// <param name="Since">Since when.</param>
/// <param name="HeardAt">When the probe last told anything.</param>
/// <param name="Changes">How often the value has changed.</param>
/// <param name="Usual">The longest it repeated a value lately; half of that counts a week later.</param>
/// <param name="Step">The smallest step it was seen to make: its resolution, or less often than that its dead band.</param>
/// <param name="OtherLow">The least its other quantity was since then; of a humidity, what the temperature was long ago fades.</param>
/// <param name="OtherHigh">The most.</param>
/// <param name="Last">The run before this one; null before the first change.</param>
/// <remarks>
/// A run that ended in a jump, or in which the quantity was told to be stuck, says nothing of what is usual. Source (choice): ten changes
/// to know a probe.
/// </remarks>
internal sealed record Standing(
    double Value, DateTimeOffset Since, DateTimeOffset HeardAt, int Changes, TimeSpan Usual, double Step, double OtherLow, double OtherHigh, StandingRun? Last)
{
    private const int ChangesToKnow = 10, ChangesToKnowAStep = 4;

    /// <summary>How long it takes until half of a long run is forgotten [d]. Source (choice): a bay that is heated on weekdays only is known after one weekend.</summary>
    private const double HalfForgottenInDays = 7;

    /// <summary>How many of its steps another quantity must have moved it by, to tell. Source (choice): more than rounding and its noise make.</summary>
    public const double StepsToTell = 3;

    /// <summary>What walls and goods give and take of moisture brings a humidity back to where it was, in so long. Source (choice): common practice, no source.</summary>
    private static readonly TimeSpan Forgotten = TimeSpan.FromHours(1.5);

    /// <summary>A jump after less is a door. Source (choice), by the false alarms in sound bays.</summary>
    private const double RunsToBeUnseen = 2;
    private static readonly TimeSpan ShortestUnseen = TimeSpan.FromMinutes(20);

    public bool IsKnown => Changes >= ChangesToKnow;

    /// <summary>Whether its resolution has been seen, so that what it hides can be reckoned with.</summary>
    public bool HasStep => Changes >= ChangesToKnowAStep;

    public TimeSpan Run => HeardAt - Since;

    /// <summary>Whether the run before this one ended in a jump, and had lasted for longer than usual: then nobody saw what lies between.</summary>
    public bool IsJumpUnseen => Last is { IsJump: true } last && last.HeardAt - last.Since is var run && run > ShortestUnseen && run > RunsToBeUnseen * Usual;

    public bool IsLongerThan(double timesUsual) => Run > timesUsual * Usual;

    public double OtherMoved => OtherHigh - OtherLow;

    public static Standing Of(DateTimeOffset at, double value, double other) =>
        new(value, at, at, 0, TimeSpan.Zero, double.PositiveInfinity, other, other, null);

    public Standing After(DateTimeOffset at, double value, double other, TimeSpan silence, bool isJump, bool isTold, bool fades)
    {
        if (value == Value)
        {
            return at - HeardAt > silence && !isTold
                ? this with { Since = at, HeardAt = at, OtherLow = other, OtherHigh = other }
                : this with { HeardAt = at, OtherLow = Math.Min(Faded(OtherLow), other), OtherHigh = Math.Max(Faded(OtherHigh), other) };

            double Faded(double end) => isTold || !fades ? end : other + ((end - other) * Math.Exp(-(at - HeardAt) / Forgotten));
        }

        double by = Math.Abs(value - Value);
        TimeSpan run = at - HeardAt > silence ? Run : at - Since;
        TimeSpan faded = Usual * Math.Pow(2, -(at - Since).TotalDays / HalfForgottenInDays);
        bool isUsual = !isTold && !(isJump && run > ShortestUnseen && run > RunsToBeUnseen * faded);
        return new Standing(
            value, at, at, Changes + 1, isUsual && run > faded ? run : faded, Math.Min(Step, by), other, other, new StandingRun(Since, HeardAt, at, isJump));
    }
}

/// <summary>A run of one value that is over.</summary>
/// <param name="Since">When the value was first told.</param>
/// <param name="HeardAt">When it was last told.</param>
/// <param name="Until">When another was.</param>
/// <param name="IsJump">Whether that one was further off than a step or two, and than a bay moves between two readings.</param>
internal sealed record StandingRun(DateTimeOffset Since, DateTimeOffset HeardAt, DateTimeOffset Until, bool IsJump);
