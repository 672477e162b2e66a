using System.Net.Security;
using System.Security.Cryptography.X509Certificates;

namespace CureWatch.Service.Certificates;

/// <summary>A certificate that the shop's own authority issues, and issues again before it ends; it is on no disk.</summary>
/// <remarks>One that was replaced is left to the collector: connections that began with it go on.</remarks>
internal sealed class IssuedCertificate(ShopAuthority authority, IReadOnlyList<ServedName> names, TimeProvider clock) : IServerCertificate
{
    /// <summary>Source (choice): a month, so that a phone whose clock is ahead still believes it.</summary>
    private static readonly TimeSpan Renewed = TimeSpan.FromDays(30);

    private readonly Lock _one = new();
    private SslStreamCertificateContext? _context;

    public SslStreamCertificateContext Now()
    {
        lock (_one)
        {
            DateTime now = clock.GetUtcNow().UtcDateTime;
            X509Certificate2? shown = _context?.TargetCertificate;
            if (shown is null || (now < Begins(shown) && Begins(shown) > authority.From.UtcDateTime) || (Until(shown) - now < Renewed && Until(shown) < authority.Until))
            {
                _context = SslStreamCertificateContext.Create(authority.Issue(names, clock.GetUtcNow()), null, offline: true);
            }

            return _context!;
        }
    }

    private static DateTime Begins(X509Certificate2 shown) => shown.NotBefore.ToUniversalTime();

    private static DateTime Until(X509Certificate2 shown) => shown.NotAfter.ToUniversalTime();
}
