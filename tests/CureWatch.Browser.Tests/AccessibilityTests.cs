using CureWatch.Service.Tests.Api;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>Every page on a phone, light and dark, breaks no rule of <see cref="PageRules"/>.</summary>
public class AccessibilityTests(Chromium browser)
{
    /// <summary>Each width and each theme once, here and in <see cref="WallAccessibilityTests"/>; the other pairs are on demand.</summary>
    [Fact]
    public async Task EveryPage_BreaksNoRule()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        await PageRules.KeptAsync(browser, shop, EveryPage.ButForChaptersSetAlike(shop, ShopAtWork.Job), PageRules.NarrowestPx, isDark: false, "en-GB");
    }

    [Theory]
    [InlineData(PageRules.NarrowestPx, false)]
    [InlineData(PageRules.NarrowestPx, true, Explicit = true)]
    public async Task EveryPage_AboutPeople_BreaksNoRule(int width, bool isDark)
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        IPage page = await browser.OpenAsync(shop.Address, width, isDark);
        var found = new List<string>();
        await PageRules.LookAsync(page, "/set-up", width, isDark, found);
        await FirstManager.BecomeAsync(page, shop);
        foreach (string path in new[] { "/people", "/sign-in", "/certificate", "/pair", "/", "/nowhere" })
        {
            await PageRules.LookAsync(page, path, width, isDark, found);
        }

        Assert.True(found.Count == 0, string.Join('\n', found));
    }

    /// <summary>German words are longer: the pages that have most of them on a narrow screen.</summary>
    [Fact]
    public async Task Pages_InGerman_BreakNoRule()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        await PageRules.KeptAsync(browser, shop, ["/", $"/bay/bay-1/jobs/{ShopAtWork.Job}", "/wall", "/start"], PageRules.NarrowestPx, isDark: false, "de-DE");
    }

    [Theory(Explicit = true)]
    [InlineData(PageRules.NarrowestPx, true, "en-GB")]
    [InlineData(1920, false, "en-GB")]
    [InlineData(1920, true, "en-GB")]
    [InlineData(PageRules.NarrowestPx, false, "de-DE")]
    [InlineData(PageRules.NarrowestPx, true, "de-DE")]
    [InlineData(1920, false, "de-DE")]
    [InlineData(1920, true, "de-DE")]
    public async Task EveryPage_OnAnyScreen_InAnyLanguage_BreaksNoRule(int width, bool isDark, string language)
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        await PageRules.KeptAsync(browser, shop, EveryPage.Of(shop, ShopAtWork.Job), width, isDark, language);
    }
}
