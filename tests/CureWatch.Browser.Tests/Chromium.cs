using CureWatch.Browser.Tests;
using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(Chromium))]

namespace CureWatch.Browser.Tests;

/// <summary>The one browser of all tests: the Chromium this machine has, driven by Playwright. Where it has none, what needs it is skipped, and says so.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private static readonly string[] Names = ["chromium", "chromium-browser", "google-chrome"];

    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async ValueTask InitializeAsync()
    {
        if (Find() is not { } program)
        {
            return;
        }

        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = program, ChromiumSandbox = false });
    }

    /// <summary>A window of its own, without what others have kept.</summary>
    /// <param name="shop">Where the shop is served.</param>
    /// <param name="width">The width [CSS px].</param>
    /// <param name="isDark">Whether the person has it dark.</param>
    /// <param name="hasScript">Whether pages may run scripts.</param>
    /// <param name="language">The language the browser asks for.</param>
    /// <param name="hasWorker">Whether pages may be put aside; where a test answers in the service's stead they must not: what goes by the worker, it never sees.</param>
    public async Task<IPage> OpenAsync(Uri shop, int width = 360, bool isDark = false, bool hasScript = true, string language = "en-GB", bool hasWorker = true)
    {
        Assert.SkipWhen(_browser is null, $"no browser on this machine: none of {string.Join(", ", Names)} is in the PATH");
        IBrowserContext window = await _browser.NewContextAsync(new BrowserNewContextOptions
        {
            BaseURL = shop.AbsoluteUri,
            ViewportSize = new ViewportSize { Width = width, Height = width > 600 ? 1080 : 740 },
            ColorScheme = isDark ? ColorScheme.Dark : ColorScheme.Light,
            ReducedMotion = ReducedMotion.Reduce,
            JavaScriptEnabled = hasScript,
            Locale = language,
            ServiceWorkers = hasWorker ? ServiceWorkerPolicy.Allow : ServiceWorkerPolicy.Block,
        });
        return await window.NewPageAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }

    private static string? Find() => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .SelectMany(folder => Names.Select(name => Path.Combine(folder, name))).FirstOrDefault(File.Exists);
}
