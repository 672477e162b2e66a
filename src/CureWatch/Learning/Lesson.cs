namespace CureWatch.Learning;

/// <summary>What one observation by a person says about a stage of a product in a bay.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer.</param>
/// <param name="Section">The section.</param>
/// <param name="Bay">The bay it happened in.</param>
/// <param name="From">When the stage's clock started.</param>
/// <param name="At">When its end was seen.</param>
/// <param name="LnRatio">
/// Logarithm of the reference hours it took over the sheet's [1]; below 0 where it was faster. Null where nobody measured the climate in between:
/// it counts as told and teaches nothing.
/// </param>
public sealed record Lesson(
    string Job, string Surface, int Layer, int Section, string Bay, DateTimeOffset From, DateTimeOffset At, double? LnRatio)
{
    /// <summary>
    /// How long after it was told an observation is taken in [15 min]. Source (choice): as late as a reading may come, so that the climate is
    /// settled and a slip of the finger is corrected.
    /// </summary>
    public static readonly TimeSpan Wait = Readings.ProbeLog.LatestArrival;

    /// <summary>The order lessons are taken in: by when they happened, never by when anybody told.</summary>
    internal static Comparer<Lesson> Order { get; } = Comparer<Lesson>.Create((a, b) =>
        a.At.CompareTo(b.At) is not 0 and var at ? at
        : string.CompareOrdinal(a.Job, b.Job) is not 0 and var job ? job
        : string.CompareOrdinal(a.Surface, b.Surface) is not 0 and var surface ? surface
        : (a.Layer, a.Section).CompareTo((b.Layer, b.Section)));

    /// <summary>Whether both are about the same act on the same coat in the same place, so that the climate says the same of both.</summary>
    /// <param name="other">The other.</param>
    /// <returns>True where only the ratio may differ.</returns>
    public bool IsOfTheSameAct(Lesson other) => this with { LnRatio = null } == other with { LnRatio = null };
}
