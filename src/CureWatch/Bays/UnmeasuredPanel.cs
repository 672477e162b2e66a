using System.Collections.Immutable;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says what a surface's times assume of a panel that no probe measures.</summary>
internal static class UnmeasuredPanel
{
    /// <summary>Says it, to the whole kelvin, so that it is not told anew with every reading.</summary>
    /// <returns>A sentence, a space before it; empty where a panel is measured, or nothing around it can be colder.</returns>
    public static Sentence InWords(Present present, ImmutableArray<Stay> stays) =>
        stays[^1].Point is { } point && present.ExposureAt(point) is { ColderK: >= 0.5 } exposure
            ? $" No probe measures its panel: what has to be waited for counts it up to {new Figure.Difference(Math.Ceiling(exposure.ColderK), "0")} colder than the air, "
                + $"as a cold roof or wall may keep it. A probe on a panel ends that."
            : Sentence.None;
}
