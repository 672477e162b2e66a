using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>Everything that follows from the journal so far.</summary>
/// <param name="Sequence">The number of the last entry taken in; 0 before the first.</param>
/// <param name="At">The instant of that entry.</param>
/// <param name="Settings">The settings as the journal has them.</param>
/// <param name="Shop">The shop; null before its settings came.</param>
/// <param name="Refusals">How often what was refused, by reason and place, readings nobody believed included.</param>
/// <param name="Turns">How many rulings have turned.</param>
/// <param name="Jobs">What is known of every job there ever was beyond the engine, by job.</param>
/// <param name="Batches">The batches of each bay and product, in the order they came into use, and which taps said them.</param>
internal sealed record Register(
    long Sequence,
    DateTimeOffset At,
    SettingsRegister Settings,
    Shop? Shop,
    ImmutableSortedDictionary<(string Reason, string Place), int> Refusals,
    int Turns,
    ImmutableDictionary<string, JobMarks> Jobs,
    ImmutableArray<BatchInUse> Batches)
{
    private static readonly Comparer<(string Reason, string Place)> OrdinalPair = Comparer<(string Reason, string Place)>.Create(
        (a, b) => string.CompareOrdinal(a.Reason, b.Reason) is not 0 and var reason ? reason : string.CompareOrdinal(a.Place, b.Place));

    /// <summary>Before the first entry.</summary>
    public static Register Blank { get; } = new(
        0,
        DateTimeOffset.MinValue,
        SettingsRegister.Blank,
        null,
        ImmutableSortedDictionary.Create<(string, string), int>(OrdinalPair),
        0,
        ImmutableDictionary<string, JobMarks>.Empty,
        []);
}

/// <summary>What is known of a job beyond the engine, which lets go of it two days after its car left.</summary>
/// <param name="Number">How many jobs were begun before it.</param>
/// <param name="Car">The car, in the shop's words.</param>
/// <param name="StartedAt">When it was begun.</param>
/// <param name="Pins">The sheets it keeps.</param>
/// <param name="HandedOver">When, by whom and despite what the car left; null while it is here.</param>
internal sealed record JobMarks(
    int Number, string? Car, DateTimeOffset StartedAt, ImmutableArray<SheetPin> Pins, (DateTimeOffset At, string? By, string? Despite)? HandedOver)
{
    /// <summary>The photos that were taken of it, those with their pictures taken away included.</summary>
    public ImmutableArray<KeptPhoto> Photos { get; init; } = [];
}
