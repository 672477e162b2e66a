using CureWatch.Service.Disk;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;

namespace CureWatch.Service.People;

/// <summary>Puts the signing-in into a host where people sign in.</summary>
internal static class PeopleRegistration
{
    private const string Cookie = "curewatch";
    private const string CookieKeys = "cookies";

    /// <param name="services">The host's services.</param>
    /// <param name="disk">The disk of the data folder.</param>
    /// <param name="data">The data folder.</param>
    /// <param name="isSignedIn">Whether people sign in; else whoever is at this machine may do everything.</param>
    public static IServiceCollection AddPeople(this IServiceCollection services, IDisk disk, string data, bool isSignedIn)
    {
        services.AddScoped<Visitor>();
        if (!isSignedIn)
        {
            return services;
        }

        var folder = new StaffFolder(disk, data);
        services.AddSingleton(new Staff(folder)).AddSingleton(new Pins(folder.Key())).AddSingleton<Attempts>().AddSingleton<SetUpCode>()
            .AddSingleton<Pairing>().AddSingleton<SignInDesk>().AddSingleton<BrowserCookies>();
        DurableFile.MakeFolder(disk, Path.Combine(data, StaffFolder.Name, CookieKeys));
        services.AddDataProtection().SetApplicationName(Cookie).PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(data, StaffFolder.Name, CookieKeys)));
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(o =>
        {
            o.Cookie.Name = Cookie;
            o.CookieManager = new CookiesByScheme();
            o.Cookie.HttpOnly = true;
            o.Cookie.SameSite = SameSiteMode.Strict;
            o.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
            o.Cookie.MaxAge = SignInDesk.AsLongAsACookie; // the staff list says when it is over; a phone whose clock is wrong must not
            o.SlidingExpiration = false;
        });
        return services;
    }
}
