using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Mqtt;

/// <summary>Who is connected to the embedded broker, and what they may do there.</summary>
/// <param name="User">The user; null for whoever is on this machine, where no users are set up.</param>
internal sealed record Visitor(MqttUser? User)
{
    /// <returns>The visitor; null where the name or the password is wrong.</returns>
    public static Visitor? Admit(ImmutableArray<MqttUser> users, string? name, string? password) =>
        users.IsEmpty ? new Visitor((MqttUser?)null)
        : users.FirstOrDefault(u => u.User == name) is { } user && IsSame(user.Password, password ?? "") ? new Visitor(user)
        : null;

    /// <summary>Nobody publishes on the topics that this program writes, nor on any that say nothing here.</summary>
    public bool MayPublish(TopicMeaning meaning) => User?.Role switch
    {
        null => meaning is not TopicMeaning.Foreign,
        MqttRole.Probe => meaning is TopicMeaning.Readings r && r.Probes.Any(p => User.Probes.Any(own => own.Bay == p.Bay && own.Probe == p.Probe)),
        MqttRole.Client => meaning is TopicMeaning.Tap,
        _ => false,
    };

    public bool MaySubscribe => User?.Role is null or MqttRole.Client;

    /// <summary>Takes as long for a nearly right password as for a wrong one.</summary>
    private static bool IsSame(string password, string given) =>
        CryptographicOperations.FixedTimeEquals(SHA256.HashData(Encoding.UTF8.GetBytes(password)), SHA256.HashData(Encoding.UTF8.GetBytes(given)));
}
