using CureWatch.Words;

namespace CureWatch.Warnings;

/// <summary>What is worst off: a surface, or a probe in words.</summary>
/// <remarks>The default is nothing that is told apart.</remarks>
/// <param name="Surface">The surface; null where it is none.</param>
/// <param name="Said">What is said of it; null where that is no more than its name.</param>
public readonly record struct Worst(string? Surface, Sentence? Said = null);
