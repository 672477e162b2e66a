using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>The broker as people write it.</summary>
internal static class MqttOfService
{
    /// <summary>Registered for MQTT (IANA).</summary>
    private const int UsualPort = 1883;

    public static MqttSettings Read(JsonCursor mqtt)
    {
        _ = mqtt.Keys([], "port", "listen", "users", "external");
        int port = mqtt["port"].Integer(0, Ports.Highest) ?? UsualPort;
        IReadOnlyList<JsonCursor> places = mqtt["users"].Items();
        ImmutableArray<MqttUser> users = UsersOfMqtt.Read(places);
        Listen? stated = mqtt["listen"].OneOf<Listen>();
        if (stated == Listen.All && places.Count == 0 && mqtt["external"].IsAbsent)
        {
            mqtt["listen"].Refuse("loopback where there are no users: on a network everyone needs a name and a password");
        }

        ExternalBroker? external = ExternalOfMqtt.Read(mqtt["external"]);
        RefuseBesideExternal(mqtt);
        Listen listen = stated ?? (places.Count > 0 ? Listen.All : Listen.Loopback);
        return new MqttSettings(port, listen, users, external);
    }

    /// <summary>With an external broker the embedded one does not run; what is said about it would pass unheard.</summary>
    private static void RefuseBesideExternal(JsonCursor mqtt)
    {
        foreach (string key in mqtt["external"].IsAbsent ? [] : new[] { "port", "listen", "users" })
        {
            if (!mqtt[key].IsAbsent)
            {
                mqtt[key].Refuse($"the key {key} beside external", "either external, or the embedded broker's port, listen and users");
            }
        }
    }
}
