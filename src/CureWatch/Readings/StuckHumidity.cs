namespace CureWatch.Readings;

/// <summary>Whether a humidity element repeats itself while the temperature beside it moves.</summary>
/// <param name="Habit">How long the element is used to repeat one value.</param>
/// <param name="LowestC">The coldest since it says what it says now [°C].</param>
/// <param name="HighestC">The warmest since then [°C].</param>
/// <remarks>
/// A kelvin moves the relative humidity of shut-in air by a sixteenth of itself, three per cent at 50 %: what stays the same to the last
/// digit meanwhile, and for longer than it is used to, is stuck. Source (law): the slope of the saturation pressure; (choice) one kelvin. In
/// fog the air itself stays at 100 %, so a humidity that may be saturation is no repetition.
/// </remarks>
internal sealed record StuckHumidity(ProbeHabit Habit, double LowestC, double HighestC)
{
    private const double LeastMoveK = 1;
    private const double MayBeFogPct = 98;

    public static StuckHumidity Of(DateTimeOffset at, double airC, double humidityPct, TimeSpan silentAfter) =>
        new(ProbeHabit.Of(at, Only(humidityPct), silentAfter), airC, airC);

    public bool IsStuckAt(DateTimeOffset at, double airC, double humidityPct) =>
        humidityPct < MayBeFogPct
        && Math.Max(HighestC, airC) - Math.Min(LowestC, airC) >= LeastMoveK
        && Habit.IsFrozenAt(at, Only(humidityPct));

    public StuckHumidity After(DateTimeOffset at, double airC, double humidityPct)
    {
        ProbeHabit habit = Habit.After(at, Only(humidityPct));
        return habit.Since == Habit.Since
            ? new StuckHumidity(habit, Math.Min(LowestC, airC), Math.Max(HighestC, airC))
            : new StuckHumidity(habit, airC, airC);
    }

    private static (double, double, double) Only(double humidityPct) => (0, humidityPct, 0);
}
