using CureWatch.Service.Tests.Api;

namespace CureWatch.Browser.Tests;

/// <summary>Every page on a wall breaks no rule of <see cref="PageRules"/>; a class of its own, as classes run side by side.</summary>
public class WallAccessibilityTests(Chromium browser)
{
    [Fact]
    public async Task EveryPage_BreaksNoRule()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        await PageRules.KeptAsync(browser, shop, EveryPage.ButForChaptersSetAlike(shop, ShopAtWork.Job), 1920, isDark: true, "en-GB");
    }
}
