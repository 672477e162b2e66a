using CureWatch.Bays;

namespace CureWatch.Service.Settings;

/// <summary>Holds the broker's users against the shop: a probe nobody has could never be heard.</summary>
internal static class ProbeUsers
{
    public static void Check(ServiceSettings service, ShopPlan shop, Faults faults)
    {
        foreach (OwnProbe own in service.Mqtt.Users.SelectMany(u => u.Probes).Where(p => !IsThere(shop, p)))
        {
            string probes = string.Join(", ", from bay in shop.Bays from mount in bay.Probes select $"{bay.Bay}/{mount.Probe.Id}");
            faults.Add(own.At.File, own.At.Place, $"{own}", $"a probe of the shop: {probes}");
        }
    }

    private static bool IsThere(ShopPlan shop, OwnProbe own) =>
        shop.Bays.Any(b => b.Bay == own.Bay && b.Probes.Any(p => p.Probe.Id == own.Probe));
}
