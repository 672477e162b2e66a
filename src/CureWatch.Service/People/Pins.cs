using System.Security.Cryptography;
using System.Text;
using CureWatch.Words;
using Microsoft.AspNetCore.Identity;

namespace CureWatch.Service.People;

/// <summary>What makes a PIN, and how one is checked.</summary>
/// <param name="key">Mixed in first, so that the list alone is no use to whoever guesses.</param>
internal sealed class Pins(byte[] key)
{
    /// <summary>Short enough for gloves; with the waits of <see cref="Attempts"/> a year of guessing finds one in some thirty. Source (choice).</summary>
    public const int LeastOfTechnician = 6;

    /// <summary>Whoever has this one can let others in. Source (choice).</summary>
    public const int LeastOfManager = 8;

    public const int Most = 20;

    private readonly PasswordHasher<Person> _hasher = new();

    private string? _nobodys;

    /// <returns>What a PIN lacks; null where it will do.</returns>
    public static Sentence? Lack(Role role, string pin)
    {
        int least = role == Role.Manager ? LeastOfManager : LeastOfTechnician;
        return pin.Length < least || pin.Length > Most || !pin.All(char.IsAsciiDigit)
            ? role == Role.Manager ? (Sentence)$"A PIN of a manager is {least} to {Most} digits." : $"A PIN of a technician is {least} to {Most} digits."
            : IsStair(pin, 0) || IsStair(pin, 1) || IsStair(pin, -1) ? (Sentence)$"That PIN is among the first anybody would try."
            : null;
    }

    public string Hash(string pin) => _hasher.HashPassword(null!, Mixed(pin));

    /// <summary>Checks a PIN; where there is nobody of that name it takes as long, and never fits.</summary>
    public bool Fits(Person? person, string pin)
    {
        string hash = person?.PinHash ?? (_nobodys ??= Hash(Convert.ToHexString(key)));
        return _hasher.VerifyHashedPassword(null!, hash, Mixed(pin)) != PasswordVerificationResult.Failed && person is not null;
    }

    private static bool IsStair(string pin, int step) => pin.Zip(pin.Skip(1)).All(pair => pair.Second - pair.First == step);

    private string Mixed(string pin) => Convert.ToBase64String(HMACSHA256.HashData(key, Encoding.UTF8.GetBytes(pin)));
}
