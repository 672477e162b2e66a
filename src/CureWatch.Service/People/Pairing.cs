using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;

namespace CureWatch.Service.People;

/// <summary>A screen that asks to be let in.</summary>
/// <param name="Code">What its picture says, for the manager's phone: good once.</param>
/// <param name="Secret">What only the screen itself has.</param>
/// <param name="Number">What it shows beside the picture, so that the manager lets in the screen they stand before.</param>
/// <param name="From">The address it came from.</param>
/// <param name="Until">When it has to ask again.</param>
internal sealed record WaitingScreen(string Code, string Secret, string Number, string From, DateTimeOffset Until)
{
    /// <summary>What it was let in as; null until then.</summary>
    public SignedIn? LetInAs { get; init; }
}

/// <summary>The screens that wait to be let in. Kept nowhere: one that waited through a restart asks again.</summary>
internal sealed class Pairing(TimeProvider clock)
{
    /// <summary>More than any shop hangs up at once; whoever asks by the hundred only shuts out others who ask. Source (choice).</summary>
    private const int MostWaiting = 20;

    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(10);

    private readonly ConcurrentDictionary<string, WaitingScreen> _waiting = new();

    /// <returns>The screen, now waiting; null where too many do.</returns>
    public WaitingScreen? Ask(string from)
    {
        Forget();
        if (_waiting.Count >= MostWaiting)
        {
            return null;
        }

        var screen = new WaitingScreen(
            Secrets.New(), Secrets.New(), RandomNumberGenerator.GetInt32(10_000).ToString("D4", CultureInfo.InvariantCulture), from, clock.GetUtcNow() + Patience);
        _waiting[screen.Code] = screen;
        return screen;
    }

    public WaitingScreen? OfCode(string code) => _waiting.TryGetValue(code, out WaitingScreen? screen) && screen.Until > clock.GetUtcNow() ? screen : null;

    public WaitingScreen? OfSecret(string? secret) => _waiting.Values.FirstOrDefault(s => s.Secret == secret && s.Until > clock.GetUtcNow());

    /// <summary>Lets a screen in, once.</summary>
    public bool TryLetIn(WaitingScreen screen, SignedIn signedIn) => screen.LetInAs is null && _waiting.TryUpdate(screen.Code, screen with { LetInAs = signedIn }, screen);

    /// <summary>The screen came for what it was let in as.</summary>
    public void Done(WaitingScreen screen) => _waiting.TryRemove(screen.Code, out _);

    private void Forget()
    {
        foreach (WaitingScreen over in _waiting.Values.Where(s => s.Until <= clock.GetUtcNow()))
        {
            Done(over);
        }
    }
}
