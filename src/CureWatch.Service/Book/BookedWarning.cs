using CureWatch.Warnings;

namespace CureWatch.Service.Book;

/// <summary>A warning as it can be looked up.</summary>
/// <param name="Number">Which of all warnings ever given, from 0.</param>
/// <param name="Warning">The warning.</param>
internal sealed record BookedWarning(int Number, Warning Warning);
