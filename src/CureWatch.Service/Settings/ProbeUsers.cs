using CureWatch.Bays;

namespace CureWatch.Service.Settings;

/// <summary>Holds the broker's users against the shop: a probe nobody has could never be heard.</summary>
internal static class ProbeUsers
{
    public static void Check(ServiceSettings service, ShopPlan shop, Faults faults)
    {
        foreach (MqttUser user in service.Mqtt.Users.Where(u => u.Role == MqttRole.Probe && !IsThere(shop, u)))
        {
            string probes = string.Join(", ", from bay in shop.Bays from mount in bay.Probes select $"{bay.Bay}/{mount.Probe.Id}");
            faults.Add(user.ProbeAt.File, user.ProbeAt.Place, $"{user.Bay}/{user.Probe}", $"a probe of the shop: {probes}");
        }
    }

    private static bool IsThere(ShopPlan shop, MqttUser user) =>
        shop.Bays.Any(b => b.Bay == user.Bay && b.Probes.Any(p => p.Probe.Id == user.Probe));
}
