using System.Collections.Immutable;
using CureWatch.Words;

namespace CureWatch.Warnings;

/// <summary>How one kind of warning is managed, in the terms of IEC 62682 and ISA-18.2.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Priority">1 is the most urgent of three.</param>
/// <param name="OnDelay">How long the cause must last before it is told.</param>
/// <param name="OffDelay">How long it must be gone before the warning is over.</param>
/// <param name="Deadband">How far back inside the limit counts as gone, in the unit of what is measured.</param>
/// <param name="LeastLooks">How many measurements must bear it out.</param>
/// <param name="Cause">What brings it about.</param>
/// <param name="Consequence">What happens if nobody acts.</param>
/// <param name="Action">What to do.</param>
/// <remarks>
/// Source (choice): delays and deadbands are ours, long enough for a noisy probe on its limit and a door opened once, short enough to act.
/// Limits are the product sheet's.
/// </remarks>
public sealed record AlarmRule(
    WarningKind Kind,
    int Priority,
    TimeSpan OnDelay,
    TimeSpan OffDelay,
    double Deadband,
    int LeastLooks,
    Sentence Cause,
    Sentence Consequence,
    Sentence Action)
{
    /// <summary>The kinds that say more about the same: while one of them stands, this one need not be told. One coat asks for one thing.</summary>
    public ImmutableArray<WarningKind> OvertakenBy { get; init; } = [];

    /// <summary>The rule of a kind.</summary>
    /// <param name="kind">The kind.</param>
    /// <returns>The rule.</returns>
    public static AlarmRule Of(WarningKind kind) => AlarmRules.All[(int)kind];
}
