namespace CureWatch.Warnings;

/// <summary>The order in which warnings that fall due at one instant are given.</summary>
public sealed class SubjectOrder : IComparer<Subject>
{
    /// <summary>The order.</summary>
    public static SubjectOrder Instance { get; } = new();

    /// <inheritdoc/>
    public int Compare(Subject? x, Subject? y)
    {
        if (x is null || y is null)
        {
            return Comparer<bool>.Default.Compare(x is not null, y is not null);
        }

        int order = string.CompareOrdinal(x.Bay, y.Bay);
        order = order != 0 ? order : x.Kind.CompareTo(y.Kind);
        order = order != 0 ? order : string.CompareOrdinal(x.Probe, y.Probe);
        order = order != 0 ? order : string.CompareOrdinal(x.Job, y.Job);
        order = order != 0 ? order : string.CompareOrdinal(x.Surface, y.Surface);
        order = order != 0 ? order : x.Layer.CompareTo(y.Layer);
        order = order != 0 ? order : x.Section.CompareTo(y.Section);
        order = order != 0 ? order : Nullable.Compare(x.Air, y.Air);
        return order != 0 ? order : string.CompareOrdinal(x.Harm, y.Harm);
    }
}
