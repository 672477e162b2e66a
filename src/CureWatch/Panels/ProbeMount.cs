using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>A probe and what it sits on.</summary>
/// <param name="Probe">The probe.</param>
/// <param name="Material">What a panel probe sits on; null where nobody said.</param>
/// <param name="Place">The place whose air or panel it measures.</param>
public sealed record ProbeMount(Probe Probe, Material? Material, Place Place);
