using System.Security.Cryptography;
using System.Text;

namespace CureWatch.Service.People;

/// <summary>
/// What the first manager is made with: printed where the service is started, good until there is a manager or the service stops, and kept nowhere.
/// </summary>
internal sealed class SetUpCode
{
    /// <summary>Without what can be misread.</summary>
    private const string Signs = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";

    private const int Half = 5;

    public string Text { get; } = $"{RandomNumberGenerator.GetString(Signs, Half)}-{RandomNumberGenerator.GetString(Signs, Half)}";

    public bool Is(string typed) => CryptographicOperations.FixedTimeEquals(
        Encoding.UTF8.GetBytes(typed.Trim().ToUpperInvariant()), Encoding.UTF8.GetBytes(Text));
}
