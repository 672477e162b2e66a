using CureWatch.Service.Tests.Api;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>What a phone has put aside for the time without the service, and when that goes.</summary>
public class PutAsideTests(Chromium browser)
{
    /// <summary>How long a busy machine may take over what is a matter of seconds [ms].</summary>
    private const int Patience = 180_000;

    [Fact]
    public async Task PageOfAnOlderVersion_GoesWithWhatItIsMadeOf()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        await PutAsideAsync(page);
        await page.EvaluateAsync(
            """
            async () => {
              const store = await caches.open("curewatch-bay");
              await store.put("/bay/old", new Response('<script src="/assets/old/phone.js"></script>'));
              await store.put("/assets/old/phone.js", new Response(""));
            }
            """);
        await page.WaitForFunctionAsync( // again and again: what is still being put aside may bring the style back before it is fetched
            """
            async () => {
              const store = await caches.open("curewatch-bay");
              const style = document.querySelector("link[href$='board.css']").href;
              await store.delete(style);
              await fetch(style);
              const kept = (await store.keys()).map(request => new URL(request.url).pathname);
              return kept.some(path => path.endsWith("/more")) && !kept.some(path => path.includes("old"));
            }
            """,
            options: new PageWaitForFunctionOptions { Timeout = Patience });
    }

    [Fact]
    public async Task SigningOut_WithoutTheService_SaysThatItDidNot()
    {
        ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync("/set-up");
        await FirstManager.BecomeAsync(page, shop);
        await page.GotoAsync("/bay");
        await PutAsideAsync(page);
        await shop.DisposeAsync();
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new("^Sign out") }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading)).ToHaveTextAsync("You are still signed in");
    }

    [Fact]
    public async Task CarThatWasLookedAt_OpensWithoutTheService_SaysSo_AndKeepsWhatIsPressed()
    {
        ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        await PutAsideAsync(page);
        await shop.DisposeAsync();

        // The page may be asking for itself as the service goes: whoever sees nothing opens it once more.
        for (int tries = 0; tries < 5 && (tries == 0 || await page.Locator(".lost").CountAsync() == 0); tries++)
        {
            await page.ReloadAsync();
        }

        await Assertions.Expect(page.Locator(".lost")).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new("^Got wet") }).First.ClickAsync();
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("Got wet");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("Got wet", new LocatorAssertionsToContainTextOptions { Timeout = Patience });
    }

    // A glove on the footer while the Wi-Fi is out: the countdown is still there afterwards.
    [Fact]
    public async Task AnotherLanguage_WithoutTheService_ChangesNothing_AndLosesNothing()
    {
        ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        string car = $"/bay/bay-1/jobs/{ShopAtWork.Job}";
        await page.GotoAsync(car);
        await PutAsideAsync(page);
        await shop.DisposeAsync();
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Deutsch" }).ClickAsync();
        await Assertions.Expect(page.GetByText("What this phone has shown before is still there.")).ToBeVisibleAsync(
            new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
        await page.GotoAsync(car);
        await Assertions.Expect(page.Locator(".lost")).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("grey estate");
    }

    // Yesterday's time on a card that cannot say how old it is would be printed.
    [Fact]
    public async Task CarCard_IsNotPutAside()
    {
        ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}");
        await PutAsideAsync(page);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/card");
        await shop.DisposeAsync();
        await page.ReloadAsync();
        await Assertions.Expect(page.GetByText("This phone has not shown this page before")).ToBeVisibleAsync(
            new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
    }

    [Fact]
    public async Task PhoneThatIsSignedOut_HasPutNothingAside()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync("/set-up");
        await FirstManager.BecomeAsync(page, shop);
        await page.GotoAsync("/bay");
        await PutAsideAsync(page);
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new("^Sign out") }).ClickAsync();
        await page.WaitForURLAsync("**/sign-in**");
        await page.WaitForFunctionAsync("async () => (await caches.keys()).length === 0", null, new PageWaitForFunctionOptions { Timeout = Patience });
    }

    /// <summary>Waits until the phone has put the page it shows aside, with what it is made of.</summary>
    private static async Task PutAsideAsync(IPage page) => await page.WaitForFunctionAsync(
        """
        async () => {
          const kept = (await (await caches.open("curewatch-bay")).keys()).map(request => request.url);
          return [location.pathname, "board.css", "board.js", "phone.js", "queue.js"].every(part => kept.some(url => url.endsWith(part)));
        }
        """,
        null,
        new PageWaitForFunctionOptions { Timeout = Patience });
}
