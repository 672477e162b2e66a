using CureWatch.Service.Tests.Api;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>Somebody who does not know a screen: from there to the answer, by keyboard alone and where no script runs.</summary>
public class HandbookTests(Chromium browser)
{
    /// <summary>More presses than that nobody has the patience for.</summary>
    private const int MostTabs = 40;

    [Fact]
    public async Task WithoutAScript_ByKeyboardAlone_AnAnswerIsFound()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address, hasScript: false);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}", new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        await TabToAsync(page, AriaRole.Link, "? Handbook: what this screen says");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page).ToHaveTitleAsync("The bay phone: handbook");
        await Assertions.Expect(page.Locator("#the-car")).ToBeInViewportAsync();

        await page.GotoAsync("/handbook", new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        await TabToAsync(page, AriaRole.Searchbox, "Words to find in the handbook");
        await page.Keyboard.TypeAsync("salt test");
        await page.Keyboard.PressAsync("Enter");
        await TabToAsync(page, AriaRole.Link, "Calibrate probes: The salt test");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new PageGetByRoleOptions { Name = "The salt test" })).ToBeInViewportAsync();
        await Assertions.Expect(page.GetByText("75.5 % at 20 °C").First).ToBeVisibleAsync();
    }

    private static async Task TabToAsync(IPage page, AriaRole role, string name)
    {
        ILocator target = page.GetByRole(role, new PageGetByRoleOptions { Name = name, Exact = true });
        await Assertions.Expect(target).ToBeVisibleAsync();
        ILocator reached = target.And(page.Locator(":focus"));
        for (int i = 0; i < MostTabs && await reached.CountAsync() == 0; i++)
        {
            await page.Keyboard.PressAsync("Tab");
        }

        await Assertions.Expect(reached).ToHaveCountAsync(1);
    }
}
