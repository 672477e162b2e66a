using System.Security.Cryptography;

namespace CureWatch.Service.Journal;

/// <summary>Seals a few words with AES-256-GCM: [nonce: 12][tag: 16][cipher text], in Base64.</summary>
/// <param name="secret">The key.</param>
/// <param name="file">Where it is kept, for whoever is told that it opens nothing.</param>
internal sealed class PersonalKey(byte[] secret, string file)
{
    public const int Bytes = 32;

    private const int NonceBytes = 12;
    private const int TagBytes = 16;

    public string Seal(ReadOnlySpan<byte> clear)
    {
        byte[] bytes = new byte[NonceBytes + TagBytes + clear.Length];
        RandomNumberGenerator.Fill(bytes.AsSpan(0, NonceBytes));
        using var aes = new AesGcm(secret, TagBytes);
        aes.Encrypt(
            bytes.AsSpan(0, NonceBytes),
            clear,
            bytes.AsSpan(NonceBytes + TagBytes),
            bytes.AsSpan(NonceBytes, TagBytes));
        return Convert.ToBase64String(bytes);
    }

    /// <summary>Where the key is kept.</summary>
    public string File => file;

    /// <summary>Whether it is as long as a key is: whatever was sealed with another would be lost.</summary>
    public bool IsWhole => secret.Length == Bytes;

    /// <summary>Whether both are of the same bytes.</summary>
    public bool IsSameAs(PersonalKey other) => other.IsOf(secret);

    /// <returns>What was sealed; null where it was sealed with another key, one that was destroyed since.</returns>
    public byte[]? Open(string seal)
    {
        try
        {
            byte[] bytes = Convert.FromBase64String(seal);
            byte[] clear = new byte[Math.Max(0, bytes.Length - NonceBytes - TagBytes)];
            using var aes = new AesGcm(secret, TagBytes);
            aes.Decrypt(
                bytes.AsSpan(0, NonceBytes), bytes.AsSpan(NonceBytes + TagBytes), bytes.AsSpan(NonceBytes, TagBytes), clear);
            return clear;
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException or FormatException)
        {
            return null;
        }
    }

    private bool IsOf(ReadOnlySpan<byte> bytes) => bytes.SequenceEqual(secret);
}
