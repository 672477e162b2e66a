using System.Buffers.Text;
using System.Security.Cryptography;

namespace CureWatch.Service.People;

/// <summary>Words that nobody guesses.</summary>
internal static class Secrets
{
    private const int Bytes = 16;

    /// <returns>128 random bits, in signs that need no escape in an address or a cookie.</returns>
    public static string New() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));
}
