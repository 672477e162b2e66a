using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>Counts in the browser how often a finger came down, from page to page.</summary>
internal static class Taps
{
    public static Task CountAsync(IPage page) => page.AddInitScriptAsync(
        "addEventListener('pointerdown', () => sessionStorage.setItem('taps', 1 + Number(sessionStorage.getItem('taps'))), true);");

    public static Task<int> SoFarAsync(IPage page) => page.EvaluateAsync<int>("Number(sessionStorage.getItem('taps'))");
}
