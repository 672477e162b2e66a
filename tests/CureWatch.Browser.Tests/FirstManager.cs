using CureWatch.Service.People;
using CureWatch.Service.Tests.Api;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>Whoever first opens a shop where people sign in.</summary>
internal static class FirstManager
{
    /// <summary>Fills in the page of the set-up code, which is open.</summary>
    public static async Task BecomeAsync(IPage page, ServedShop shop)
    {
        await page.GetByLabel("Set-up code").FillAsync(shop.Services.GetRequiredService<SetUpCode>().Text);
        await page.GetByLabel("Your name").FillAsync("Maeve");
        await page.GetByLabel("New PIN").FillAsync("73915026");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Become the manager" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new PageGetByRoleOptions { Name = "People and screens" })).ToBeVisibleAsync();
    }
}
