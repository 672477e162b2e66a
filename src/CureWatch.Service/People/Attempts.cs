using System.Collections.Concurrent;
using System.Globalization;

namespace CureWatch.Service.People;

/// <summary>
/// How long whoever entered wrong PINs has to wait. A browser that once signed in under a name has a count of its own there; all others share one. So
/// nobody can lock a manager out of the phone they use, however often they guess.
/// </summary>
internal sealed class Attempts(TimeProvider clock)
{
    /// <summary>As many as gloves get wrong. Source (choice).</summary>
    private const int Free = 5;

    private static readonly TimeSpan First = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(15);

    /// <summary>How many counts there are for names on no list: a name that nobody has is not told apart by its waits. Source (choice).</summary>
    private const int Strangers = 1024;

    private readonly ConcurrentDictionary<(string Name, string? Device), (int Failures, DateTimeOffset Until)> _counts = new();

    /// <summary>The name under which the guesses at a name on no list are counted.</summary>
    public static string Stranger(string name) =>
        string.Create(CultureInfo.InvariantCulture, $"\n{(uint)name.GetHashCode(StringComparison.OrdinalIgnoreCase) % Strangers}");

    /// <param name="name">The name of somebody on the list, or of a <see cref="Stranger"/>.</param>
    /// <param name="device">The browser, where it once signed in under that name; null for all others together.</param>
    /// <returns>How long no PIN is looked at; null where one is.</returns>
    public TimeSpan? Wait(string name, string? device) =>
        _counts.TryGetValue(KeyOf(name, device), out (int, DateTimeOffset Until) count) && count.Until - clock.GetUtcNow() is { Ticks: > 0 } wait ? wait : null;

    public void Failed(string name, string? device) => _counts.AddOrUpdate(
        KeyOf(name, device),
        _ => (1, DateTimeOffset.MinValue),
        (_, count) => (count.Failures + 1, clock.GetUtcNow() + After(count.Failures + 1)));

    public void Succeeded(string name, string? device) => _counts.TryRemove(KeyOf(name, device), out _);

    private static TimeSpan After(int failures) => failures < Free
        ? TimeSpan.Zero
        : TimeSpan.FromTicks((long)Math.Min(Longest.Ticks, First.Ticks * Math.Pow(2, failures - Free)));

    private static (string Name, string? Device) KeyOf(string name, string? device) => (name.ToUpperInvariant(), device);
}
