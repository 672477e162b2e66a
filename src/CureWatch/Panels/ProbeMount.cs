using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>A probe and what it sits on.</summary>
/// <param name="Probe">The probe.</param>
/// <param name="Material">What a panel probe sits on; null where nobody said.</param>
/// <param name="Place">The place whose air or panel it measures.</param>
/// <param name="Surface">The surface a panel probe is fixed to, by the name surfaces have in jobs; null where nobody said.</param>
public sealed record ProbeMount(Probe Probe, Material? Material, Place Place, string? Surface = null)
{
    /// <summary>Whether a surface has this probe for its own: it is fixed to it, or merely bears its name, being a panel's and fixed to no other.</summary>
    /// <param name="surface">The surface, by the name it has in its job.</param>
    /// <returns>True where it tells of that very surface.</returns>
    public bool IsOn(string surface) => (Surface ?? (Probe.Measures == Measures.Panel ? Probe.Id : null)) == surface;
}
