using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>What is kept of the samples of the past.</summary>
/// <param name="From">The instant up to which nobody asks for any; what was measured last by then still held at it.</param>
/// <param name="Asked">The stretches before it of which somebody does all the same, with the samples around them.</param>
/// <param name="Fresh">What was measured after it stays as it is.</param>
/// <param name="Spacing">How close together what is older is kept.</param>
public sealed record Retention(DateTimeOffset From, ImmutableArray<(DateTimeOffset From, DateTimeOffset To)> Asked, DateTimeOffset Fresh, TimeSpan Spacing);
