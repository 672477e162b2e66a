using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>Who may connect to the embedded broker, as people write it.</summary>
internal static class UsersOfMqtt
{
    private const int LongestName = 100;
    private const int LongestPassword = 200;

    /// <summary>Two ids, and what is between them.</summary>
    private const int LongestProbe = 81;

    /// <returns>The users; one with a fault may be missing.</returns>
    public static ImmutableArray<MqttUser> Read(IReadOnlyList<JsonCursor> users)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        return [.. users.Select(u => Read(u, names)).OfType<MqttUser>()];
    }

    private static MqttUser? Read(JsonCursor place, HashSet<string> names)
    {
        _ = place.Keys(["user", "password", "role"], "bay", "probe", "probes");
        string? user = place["user"].Text(LongestName);
        string? password = place["password"].Secret(LongestPassword);
        MqttRole? role = place["role"].OneOf<MqttRole>();
        ImmutableArray<OwnProbe> probes = place["probes"].IsAbsent ? One(place, role) : Several(place, role);
        if (user is not null && !names.Add(user))
        {
            place["user"].Refuse("each user once");
        }

        return user is null || password is null || role is null
            ? null
            : new MqttUser(user, password, role.Value, probes);
    }

    private static ImmutableArray<OwnProbe> One(JsonCursor user, MqttRole? role)
    {
        string? bay = OfProbe(user["bay"], role), probe = OfProbe(user["probe"], role);
        return bay is null || probe is null ? [] : [new OwnProbe(bay, probe, user["probe"].Where)];
    }

    /// <summary>What a gateway speaks for, each as <c>bay/probe</c>.</summary>
    private static ImmutableArray<OwnProbe> Several(JsonCursor user, MqttRole? role)
    {
        if (role == MqttRole.Client)
        {
            user["probes"].Refuse("probes for a user of role probe only");
        }

        foreach (JsonCursor beside in new[] { user["bay"], user["probe"] }.Where(c => !c.IsAbsent))
        {
            beside.Refuse("bay and probe for one probe, or probes for several");
        }

        var probes = ImmutableArray.CreateBuilder<OwnProbe>();
        foreach (JsonCursor place in user["probes"].Items(least: 1))
        {
            string[] ids = place.Text(LongestProbe)?.Split('/') ?? [];
            if (ids is not [var bay, var probe] || !Ids.Allows(bay) || !Ids.Allows(probe))
            {
                if (ids.Length > 0)
                {
                    place.Refuse($"bay/probe, each {Ids.Allowed}");
                }
            }
            else if (probes.Any(p => p.Bay == bay && p.Probe == probe))
            {
                place.Refuse("each probe once");
            }
            else
            {
                probes.Add(new OwnProbe(bay, probe, place.Where));
            }
        }

        return probes.ToImmutable();
    }

    private static string? OfProbe(JsonCursor place, MqttRole? role)
    {
        if (role == MqttRole.Probe && place.IsAbsent)
        {
            place.Refuse("nothing", "the probe a user of role probe speaks for: its bay and its probe, or several in probes");
        }
        else if (role == MqttRole.Client && !place.IsAbsent)
        {
            place.Refuse("bay and probe for a user of role probe only");
        }

        return place.Id();
    }
}
