using CureWatch.Service.Tests.Api;

namespace CureWatch.Browser.Tests;

/// <summary>Every page on a wall breaks no rule of <see cref="PageRules"/>; a class of its own, as classes run side by side.</summary>
public class WallAccessibilityTests(Chromium browser)
{
    /// <summary>Of the handbook its first chapter: the others are set alike, and are looked at on a phone.</summary>
    [Fact]
    public async Task EveryPage_BreaksNoRule()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IEnumerable<string> pages = EveryPage.Of(shop, ShopAtWork.Job);
        string[] chapters = [.. pages.Where(p => p.StartsWith("/handbook/", StringComparison.Ordinal))];
        await PageRules.KeptAsync(browser, shop, pages.Except(chapters.Skip(1)), 1920, isDark: true, "en-GB");
    }
}
