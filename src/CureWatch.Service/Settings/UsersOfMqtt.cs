using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>Who may connect to the embedded broker, as people write it.</summary>
internal static class UsersOfMqtt
{
    private const int LongestName = 100;
    private const int LongestPassword = 200;

    /// <returns>The users; one with a fault may be missing.</returns>
    public static ImmutableArray<MqttUser> Read(IReadOnlyList<JsonCursor> users)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        return [.. users.Select(u => Read(u, names)).OfType<MqttUser>()];
    }

    private static MqttUser? Read(JsonCursor place, HashSet<string> names)
    {
        _ = place.Keys(["user", "password", "role"], "bay", "probe");
        string? user = place["user"].Text(LongestName);
        string? password = place["password"].Secret(LongestPassword);
        MqttRole? role = place["role"].OneOf<MqttRole>();
        string? bay = OfProbe(place["bay"], role), probe = OfProbe(place["probe"], role);
        if (user is not null && !names.Add(user))
        {
            place["user"].Refuse("each user once");
        }

        return user is null || password is null || role is null
            ? null
            : new MqttUser(user, password, role.Value, bay, probe) { ProbeAt = place["probe"].Where };
    }

    private static string? OfProbe(JsonCursor place, MqttRole? role)
    {
        if (role == MqttRole.Probe && place.IsAbsent)
        {
            place.Refuse("nothing", "the probe a user of role probe speaks for: its bay and its probe");
        }
        else if (role == MqttRole.Client && !place.IsAbsent)
        {
            place.Refuse("bay and probe for a user of role probe only");
        }

        return place.Id();
    }
}
