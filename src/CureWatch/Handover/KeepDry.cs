using CureWatch.TimeWindows;

namespace CureWatch.Handover;

/// <summary>Until when a car has to stay dry: the slowest end of what is on it.</summary>
/// <param name="IsOver">Whether none of its coats asks for it any more, or none ever did.</param>
/// <param name="Until">The slow bound (95 %) of the last end; null where it is over, or nobody can tell yet.</param>
public sealed record KeepDry(bool IsOver, DateTimeOffset? Until)
{
    /// <summary>Nothing has to stay dry.</summary>
    public static KeepDry Over { get; } = new(IsOver: true, Until: null);

    /// <summary>Finds it for a car.</summary>
    /// <param name="surfaces">The evidence of every surface.</param>
    /// <returns>One coat that is wet, or that this climate does not cure, leaves the whole car without an end.</returns>
    public static KeepDry Of(IReadOnlyList<Evidence> surfaces)
    {
        Window[] running = [.. surfaces.SelectMany(s => s.Coats).Select(c => c.Windows.KeepDry).OfType<Window>().Where(w => w.State != WindowState.Done)];
        return running.Length == 0 ? Over
            : new KeepDry(IsOver: false, running.All(w => w.ClosesAt?.Latest is not null) ? running.Max(w => w.ClosesAt!.Latest) : null);
    }
}
