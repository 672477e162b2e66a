using CureWatch.Service.Tests.Api;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>
/// Every page, on a phone and on a wall, light and dark, by the rules of WCAG 2.2 A and AA that a program can check: axe-core 4.x (Deque) does, a
/// general-purpose library. What it sees is kept as pictures beside the tests.
/// </summary>
public class AccessibilityTests(Chromium browser)
{
    /// <summary>WCAG 2.2, 1.4.10 Reflow: nothing scrolls both ways at this width.</summary>
    private const int NarrowestPx = 320;

    private static readonly AxeRunOptions Wcag = new()
    {
        RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
    };

    private static readonly string Pictures = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "pictures")).FullName;

    /// <summary>Each width and each theme once; the other pairs are on demand.</summary>
    [Theory]
    [InlineData(NarrowestPx, false)]
    [InlineData(1920, true)]
    public async Task EveryPage_BreaksNoRule(int width, bool isDark)
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        await LookAtAsync(shop, EveryPage.Of(shop, ShopAtWork.Job), width, isDark, "en-GB");
    }

    [Theory]
    [InlineData(NarrowestPx, false)]
    [InlineData(NarrowestPx, true)]
    public async Task EveryPage_AboutPeople_BreaksNoRule(int width, bool isDark)
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        IPage page = await browser.OpenAsync(shop.Address, width, isDark);
        var found = new List<string>();
        await LookAsync(page, "/set-up", width, isDark, found);
        await FirstManager.BecomeAsync(page, shop);
        foreach (string path in new[] { "/people", "/sign-in", "/certificate", "/pair", "/", "/nowhere" })
        {
            await LookAsync(page, path, width, isDark, found);
        }

        Assert.True(found.Count == 0, string.Join('\n', found));
    }

    /// <summary>German words are longer: the pages that have most of them on a narrow screen.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Pages_InGerman_BreakNoRule(bool isDark)
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        await LookAtAsync(shop, ["/", $"/bay/bay-1/jobs/{ShopAtWork.Job}", "/wall", "/start"], NarrowestPx, isDark, "de-DE");
    }

    [Theory(Explicit = true)]
    [InlineData(NarrowestPx, true, "en-GB")]
    [InlineData(1920, false, "en-GB")]
    [InlineData(NarrowestPx, false, "de-DE")]
    [InlineData(NarrowestPx, true, "de-DE")]
    [InlineData(1920, false, "de-DE")]
    [InlineData(1920, true, "de-DE")]
    public async Task EveryPage_OnAnyScreen_InAnyLanguage_BreaksNoRule(int width, bool isDark, string language)
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        await LookAtAsync(shop, EveryPage.Of(shop, ShopAtWork.Job), width, isDark, language);
    }

    private async Task LookAtAsync(ServedShop shop, IEnumerable<string> paths, int width, bool isDark, string language)
    {
        IPage page = await browser.OpenAsync(shop.Address, width, isDark, language: language);
        var found = new List<string>();
        foreach (string path in paths)
        {
            await LookAsync(page, path, width, isDark, found, language == "de-DE" ? "-de" : "");
        }

        Assert.Equal(language[..2], await page.Locator("html").GetAttributeAsync("lang"));
        Assert.True(found.Count == 0, string.Join('\n', found));
    }

    private static async Task LookAsync(IPage page, string path, int width, bool isDark, List<string> found, string kind = "")
    {
        await page.GotoAsync(path, new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        AxeResult result = await page.RunAxe(Wcag);
        found.AddRange(result.Violations.Select(v => $"{path} at {width} px: {v.Id}, {v.Help}: {v.Nodes[0].Html}"));
        int scrollWidth = await page.EvaluateAsync<int>("document.documentElement.scrollWidth");
        if (scrollWidth > width)
        {
            found.Add($"{path} at {width} px is {scrollWidth} px wide");
        }

        string name = path == "/" ? "board" : path[1..].Replace('/', '-').Replace('?', '-');
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(Pictures, $"{name}-{width}{(isDark ? "-dark" : "")}{kind}.png"), FullPage = true });
    }
}
