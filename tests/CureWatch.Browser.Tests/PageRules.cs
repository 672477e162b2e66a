using CureWatch.Service.Tests.Api;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>
/// A page by the rules of WCAG 2.2 A and AA that a program can check: axe-core 4.x (Deque) does, a general-purpose library. What it sees is kept as
/// pictures beside the tests.
/// </summary>
internal static class PageRules
{
    /// <summary>WCAG 2.2, 1.4.10 Reflow: nothing scrolls both ways at this width.</summary>
    public const int NarrowestPx = 320;

    private static readonly AxeRunOptions Wcag = new()
    {
        ResultTypes = [ResultType.Violations],
        RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
    };

    private static readonly string Pictures = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "pictures")).FullName;

    /// <summary>Looks at pages one after the other; fails with all that they break.</summary>
    public static async Task KeptAsync(Chromium browser, ServedShop shop, IEnumerable<string> paths, int width, bool isDark, string language)
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

    /// <summary>Looks at a page and adds what it breaks.</summary>
    public static async Task LookAsync(IPage page, string path, int width, bool isDark, List<string> found, string kind = "")
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
