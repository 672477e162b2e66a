using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Bays;

/// <summary>What was read on a surface itself: by the probes fixed to it, where it was, and by hand.</summary>
internal static class OwnReadings
{
    /// <summary>The readings since an instant, in order.</summary>
    public static ImmutableArray<OwnReading> Of(Shop shop, SurfaceStory story, ImmutableArray<Stay> stays, DateTimeOffset since)
    {
        var own = new List<OwnReading>(story.ReadByHand.Where(r => r.At >= since));
        foreach (Stay stay in stays)
        {
            if (stay.Point is not { } point || stay.To <= since)
            {
                continue;
            }

            BayState bay = shop.Bays[point.Bay];
            for (int i = 0; i < bay.Logs.Length; i++)
            {
                if (IsOn(bay.Plan.Probes[i], story.Surface) || ShowsLamp(bay, i, point.Own))
                {
                    Add(own, bay.Logs[i], stay.From > since ? stay.From : since, stay.To);
                }
            }
        }

        return [.. own.OrderBy(r => r.At)];
    }

    /// <summary>Whether a probe is fixed to a surface.</summary>
    public static bool IsOn(ProbeMount mount, Surface surface) => (mount.Surface ?? mount.Probe.Id) == surface.Id;

    /// <summary>Whether a probe is the one that shows the heat of a lamp over the surface.</summary>
    private static bool ShowsLamp(BayState bay, int index, SurfaceKey? own) =>
        own is { } key && bay.Heats.TryGetValue(key, out SurfaceHeat? heat) && heat.Lamps.Any(l => LampHeat.OwnerOf(bay, key, heat, l) == index);

    private static void Add(List<OwnReading> own, ProbeLog log, DateTimeOffset from, DateTimeOffset? to)
    {
        TimeSpan reach = OwnReading.ReachOfProbe(log.Probe.Every);
        for (int i = log.Panel.CountWhile(s => s.At < from); i < log.Panel.Count && !(log.Panel[i].At > to); i++)
        {
            own.Add(new OwnReading(log.Panel[i].At, Celsius.FromKelvins(log.Panel[i].Kelvins).Degrees, reach));
        }
    }
}
