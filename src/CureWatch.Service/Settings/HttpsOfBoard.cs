using CureWatch.Service.Certificates;

namespace CureWatch.Service.Settings;

/// <summary>The board by HTTPS, as people write it.</summary>
internal static class HttpsOfBoard
{
    /// <summary>The usual second port for encrypted pages, open to a program without privileges.</summary>
    public const int UsualPort = 8443;

    /// <returns>The settings, or null where they hold a fault.</returns>
    public static HttpsSettings? Read(JsonCursor place)
    {
        if (!place.Keys([], "port", "certificateFile", "keyFile"))
        {
            return null;
        }

        int port = place["port"].Integer(0, Ports.Highest) ?? UsualPort;
        if (place["certificateFile"].IsAbsent && place["keyFile"].IsAbsent)
        {
            return new HttpsSettings(port, null);
        }

        if (!place.Keys(["certificateFile", "keyFile"], "port"))
        {
            return null;
        }

        string? key = place["keyFile"].String(File.Exists, PemPair.Allowed);
        string? certificate = place["certificateFile"].String(file => key is null || PemPair.Read(file, key) is not null, PemPair.Allowed);
        return key is null || certificate is null ? null : new HttpsSettings(port, new CertificateFiles(certificate, key));
    }
}
