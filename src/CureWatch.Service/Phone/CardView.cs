using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>What the card under the wiper says to whoever comes past.</summary>
/// <param name="Car">The car.</param>
/// <param name="Bay">The bay it was looked up in.</param>
/// <param name="Place">The bays it is in; empty where all of it is in none.</param>
/// <param name="KeepDryUntil">The slow end of the last keep-dry, with its day; null where nobody can tell it yet.</param>
/// <param name="IsDone">Whether no keep-dry runs any more.</param>
/// <param name="Coated">The surfaces nobody touches.</param>
/// <param name="IsUnfinished">Whether coats are still to go on, so that the time is not the last word.</param>
/// <param name="IsHeld">Whether somebody has to look at it first, however long it has been dry.</param>
/// <param name="CollectFrom">When it can be collected; null where that can't be said.</param>
/// <param name="PrintedAt">As of when.</param>
/// <param name="Address">Where the car's page is.</param>
/// <param name="Code">The same as a square code, drawn.</param>
/// <param name="IsOfThisComputer">Whether no other device can open that address.</param>
public sealed record CardView(
    string Car,
    string Bay,
    string Place,
    Sentence? KeepDryUntil,
    bool IsDone,
    IReadOnlyList<string> Coated,
    bool IsUnfinished,
    bool IsHeld,
    Sentence? CollectFrom,
    Sentence PrintedAt,
    string Address,
    string Code,
    bool IsOfThisComputer);
