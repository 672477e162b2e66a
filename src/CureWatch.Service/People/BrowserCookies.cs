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

    private readonly IDataProtector _devices = protection.CreateProtector(Device);

    public static Task SignInAsync(HttpContext context, SignedIn device) => context.SignInAsync(
        CookieAuthenticationDefaults.AuthenticationScheme,
        new ClaimsPrincipal(new ClaimsIdentity([new Claim(ClaimTypes.Name, device.Id)], CookieAuthenticationDefaults.AuthenticationScheme)),
        new AuthenticationProperties { IssuedUtc = device.Since, ExpiresUtc = device.Until });

    public static Task SignOutAsync(HttpContext context) => context.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);

    /// <returns>Which of the browsers that once signed in under a name this is; null where it is none of them.</returns>
    public string? DeviceOf(HttpContext context, string name)
    {
        try
        {
            return context.Request.Cookies[CookiesByScheme.NameOf(context, Device)] is { } cookie && _devices.Unprotect(cookie).Split('\n') is [var id, var known]
                && known.Equals(name, StringComparison.OrdinalIgnoreCase) ? id : null;
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    /// <summary>Remembers that this browser signed in under a name.</summary>
    public void KeepDevice(HttpContext context, string name) =>
        context.Response.Cookies.Append(CookiesByScheme.NameOf(context, Device), _devices.Protect($"{DeviceOf(context, name) ?? Secrets.New()}\n{name}"), Kept(context, SignInDesk.AsLongAsACookie));

    public static string? ScreenOf(HttpContext context) => context.Request.Cookies[CookiesByScheme.NameOf(context, Screen)];

    public static void KeepScreen(HttpContext context, WaitingScreen screen) =>
        context.Response.Cookies.Append(CookiesByScheme.NameOf(context, Screen), screen.Secret, Kept(context, null));

    public static void ForgetScreen(HttpContext context) =>
        context.Response.Cookies.Delete(CookiesByScheme.NameOf(context, Screen), Kept(context, null));

    private static CookieOptions Kept(HttpContext context, TimeSpan? maxAge) => new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Strict,
        Secure = context.Request.IsHttps,
        MaxAge = maxAge,
        IsEssential = true,
    };
}
