using CureWatch.Service.Tests.Api;

namespace CureWatch.Browser.Tests;

/// <summary>
/// On a wall, what is made for one and every second of the other pages break no rule of <see cref="PageRules"/>; all of them on demand. A class of its own, as
/// classes run side by side.
/// </summary>
public class WallAccessibilityTests(Chromium browser)
{
    [Fact]
    public async Task Pages_BreakNoRule()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IEnumerable<string> pages = EveryPage.ButForChaptersSetAlike(shop, ShopAtWork.Job).Where((p, i) => p.StartsWith("/wall", StringComparison.Ordinal) || i % 2 == 0);
        await PageRules.KeptAsync(browser, shop, pages, 1920, isDark: true, "en-GB");
    }
}
