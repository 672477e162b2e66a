using System.Security.Claims;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;

namespace CureWatch.Service.People;

/// <summary>What a browser keeps for us: under what it is signed in, that it once was, and that it waits to be let in as a screen.</summary>
internal sealed class BrowserCookies(IDataProtectionProvider protection)
{
    private const string Device = "curewatch-device";
    private const string Screen = "curewatch-screen";

    /// <summary>How many people share a phone at most, the latest first. Source (choice): the cookie stays well below the 4 KB that browsers keep.</summary>
    private const int MostNames = 12;

    private readonly IDataProtector _devices = protection.CreateProtector(Device);

    public static Task SignInAsync(HttpContext context, SignedIn device) => context.SignInAsync(
        CookieAuthenticationDefaults.AuthenticationScheme,
        new ClaimsPrincipal(new ClaimsIdentity([new Claim(ClaimTypes.Name, device.Id)], CookieAuthenticationDefaults.AuthenticationScheme)),
        new AuthenticationProperties { IssuedUtc = device.Since, ExpiresUtc = device.Until });

    public static Task SignOutAsync(HttpContext context) => context.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);

    /// <returns>Which of the browsers that once signed in under a name this is; null where it is none of them.</returns>
    public string? DeviceOf(HttpContext context, string name) =>
        Known(context) is [var id, .. var names] && names.Contains(name, StringComparer.OrdinalIgnoreCase) ? id : null;

    /// <summary>Remembers that this browser signed in under a name, beside the others that share it.</summary>
    public void KeepDevice(HttpContext context, string name)
    {
        string[] known = Known(context) is [var id, .. var names]
            ? [id, name, .. names.Where(n => !n.Equals(name, StringComparison.OrdinalIgnoreCase)).Take(MostNames - 1)]
            : [Secrets.New(), name];
        context.Response.Cookies.Append(
            CookiesByScheme.NameOf(context, Device), _devices.Protect(string.Join('\n', known)), Kept(context, SignInDesk.AsLongAsACookie));
    }

    public static string? ScreenOf(HttpContext context) => context.Request.Cookies[CookiesByScheme.NameOf(context, Screen)];

    public static void KeepScreen(HttpContext context, WaitingScreen screen) =>
        context.Response.Cookies.Append(CookiesByScheme.NameOf(context, Screen), screen.Secret, Kept(context, null));

    public static void ForgetScreen(HttpContext context) =>
        context.Response.Cookies.Delete(CookiesByScheme.NameOf(context, Screen), Kept(context, null));

    /// <summary>What this browser is known by, and the names it signed in under; empty where it never did.</summary>
    private string[] Known(HttpContext context)
    {
        try
        {
            return context.Request.Cookies[CookiesByScheme.NameOf(context, Device)] is { } cookie ? _devices.Unprotect(cookie).Split('\n') : [];
        }
        catch (CryptographicException)
        {
            return [];
        }
    }

    private static CookieOptions Kept(HttpContext context, TimeSpan? maxAge) => new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Strict,
        Secure = context.Request.IsHttps,
        MaxAge = maxAge,
        IsEssential = true,
    };
}
