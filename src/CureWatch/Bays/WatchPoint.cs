using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>The probes of a bay that tell the climate of a kind of surface.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Place">The place whose air counts.</param>
/// <param name="Material">The material whose own panel probes count before all others.</param>
/// <remarks>
/// The outside of the car and parts off it are in the bay's air; the cabin and the engine bay are not, and only a probe put there
/// measures them.
/// </remarks>
public sealed record WatchPoint(string Bay, Place Place, Material Material)
{
    /// <summary>The place that stands for the air here.</summary>
    public Place Air => PlaceAir.Of(Place);

    /// <summary>The point a surface has in a bay.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="surface">The surface.</param>
    /// <returns>The point.</returns>
    public static WatchPoint Of(string bay, Surface surface) => new(bay, surface.Place, surface.Material);

    /// <summary>Whether a bay has a probe for the air of this point.</summary>
    /// <param name="plan">The bay.</param>
    /// <returns>False where nobody measures.</returns>
    public bool IsMeasuredIn(BayPlan plan) => plan.Probes.Any(IsAir);

    /// <summary>The probes with something to tell, as sources of this point's climate.</summary>
    /// <param name="plan">The bay.</param>
    /// <param name="logs">The bay's probes with what they told, in the plan's order.</param>
    /// <returns>The watch.</returns>
    public Watch WatchIn(BayPlan plan, ImmutableArray<ProbeLog> logs)
    {
        var air = ImmutableArray.CreateBuilder<Source>();
        var own = ImmutableArray.CreateBuilder<Source>();
        var others = ImmutableArray.CreateBuilder<Source>();
        for (int i = 0; i < plan.Probes.Length; i++)
        {
            ProbeMount mount = plan.Probes[i];
            ProbeLog log = logs[i];
            if (log.Air.Count > 0 && IsAir(mount))
            {
                air.Add(new Source(log.Air, mount.Probe.Every));
            }

            if (log.Panel.Count > 0 && IsHere(mount))
            {
                (mount.Material == Material ? own : others).Add(new Source(log.Panel, mount.Probe.Every));
            }
        }

        return new Watch(air.ToImmutable(), own.Count > 0 ? own.ToImmutable() : others.ToImmutable());
    }

    /// <summary>How far the probes of this point may be off.</summary>
    /// <param name="plan">The bay.</param>
    /// <param name="logs">The bay's probes with what they told, in the plan's order.</param>
    /// <returns>The doubt; the mean of several air probes is surer than one.</returns>
    public ClimateDoubt DoubtIn(BayPlan plan, ImmutableArray<ProbeLog> logs)
    {
        ImmutableArray<Probe> air = [.. plan.Probes.Where((m, i) => IsAir(m) && logs[i].Air.Count > 0).Select(m => m.Probe)];
        ImmutableArray<ProbeMount> panels = [.. plan.Probes.Where((m, i) => IsHere(m) && logs[i].Panel.Count > 0)];
        ImmutableArray<ProbeMount> own = [.. panels.Where(m => m.Material == Material)];
        panels = own.IsEmpty ? panels : own;
        double count = Math.Max(1, air.Length);
        return new ClimateDoubt(
            air.Sum(p => ClimateDoubt.VarianceOfLimit(p.AccuracyTemperatureK)) / (count * count),
            air.Sum(p => ClimateDoubt.VarianceOfLimit(p.AccuracyHumidityPct)) / (count * count),
            panels.IsEmpty ? ClimateDoubt.LagK * ClimateDoubt.LagK : panels.Max(m => ClimateDoubt.VarianceOfLimit(m.Probe.AccuracyTemperatureK)),
            !panels.IsEmpty);
    }

    private bool IsAir(ProbeMount mount) => mount.Probe.Measures == Measures.Air && IsHere(mount);

    private bool IsHere(ProbeMount mount) =>
        mount.Probe.Measures != Measures.Outdoor && PlaceAir.Of(mount.Place) == Air;
}
