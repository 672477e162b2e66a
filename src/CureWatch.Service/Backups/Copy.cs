using System.Security.Cryptography;

namespace CureWatch.Service.Backups;

/// <summary>Copies bytes and reckons their SHA-256 on the way.</summary>
internal static class Copy
{
    /// <param name="from">Where they come from.</param>
    /// <param name="into">Where they go.</param>
    /// <param name="most">How many at most.</param>
    /// <param name="onward">Told of each piece before it is written on, and may refuse it.</param>
    /// <param name="cancelled">Cancelled where nobody wants them any more.</param>
    /// <returns>How many there were, and their digest in lower-case hexadecimal.</returns>
    public static (long Bytes, string Sha256) Of(Stream from, Stream into, long most, Action<int>? onward = null, CancellationToken cancelled = default)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = new byte[128 * 1024];
        long bytes = 0;
        while (bytes < most && from.Read(buffer, 0, (int)Math.Min(buffer.Length, most - bytes)) is > 0 and var read)
        {
            cancelled.ThrowIfCancellationRequested();
            onward?.Invoke(read);
            hash.AppendData(buffer, 0, read);
            into.Write(buffer, 0, read);
            bytes += read;
        }

        return (bytes, Convert.ToHexStringLower(hash.GetHashAndReset()));
    }
}
