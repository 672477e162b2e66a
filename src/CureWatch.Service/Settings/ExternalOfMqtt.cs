namespace CureWatch.Service.Settings;

/// <summary>A broker that somebody else runs, as people write it.</summary>
internal static class ExternalOfMqtt
{
    /// <summary>Registered for MQTT without and with TLS (IANA).</summary>
    private const int UsualPort = 1883;
    private const int UsualTlsPort = 8883;

    private const string UsualClientId = "curewatch";
    private const int LongestName = 100;
    private const int LongestPassword = 200;
    private const string FileAllowed = "a file that is there, in PEM";

    /// <returns>The broker, or null where none is named or it holds a fault.</returns>
    public static ExternalBroker? Read(JsonCursor place)
    {
        if (!place.Keys(["host"], "port", "tls", "user", "password", "clientId", "certificateAuthorityFile"))
        {
            return null;
        }

        string? host = place["host"].Host();
        bool tls = place["tls"].Flag() ?? false;
        int port = place["port"].Integer(1, Ports.Highest) ?? (tls ? UsualTlsPort : UsualPort);
        string? user = place["user"].Text(LongestName);
        string? password = place["password"].Secret(LongestPassword);
        string clientId = place["clientId"].Text(LongestName) ?? UsualClientId;
        string? authority = place["certificateAuthorityFile"].String(File.Exists, FileAllowed);
        if (place["user"].IsAbsent && !place["password"].IsAbsent)
        {
            place["user"].Refuse("nothing", "the user the password belongs to");
        }

        if (!tls && !place["certificateAuthorityFile"].IsAbsent)
        {
            place["certificateAuthorityFile"].Refuse("a certificate authority only where tls is true");
        }

        return host is null ? null : new ExternalBroker(host, port, tls, user, password, clientId, authority);
    }
}
