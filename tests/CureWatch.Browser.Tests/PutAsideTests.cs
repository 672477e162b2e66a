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
        await Aside.WaitAsync(page);
        await Aside.DoAsync<object>(
            page,
            """
            await inStore(entries => {
              entries.put({ path: "/bay/old", came: 1, version: "old", headers: [], body: '<script src="/assets/old/phone.js"></script>' });
              entries.put({ path: "/assets/old/phone.js", version: "old", headers: [], body: "" });
            });
            """);
        await Aside.WaitAsync( // again and again: what is still being put aside may bring the style back before it is fetched
            page,
            """
            const style = document.querySelector("link[href$='board.css']").href;
            await inStore(entries => entries.delete(new URL(style).pathname));
            await fetch(style);
            const kept = await inStore(entries => entries.getAllKeys());
            return kept.some(path => path.endsWith("/more")) && !kept.some(path => path.includes("old"));
            """);
    }

    // The service may go at any moment of it.
    [Fact]
    public async Task PageThatIsPutAsideAgain_IsThereMeanwhile()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        await Aside.WaitAsync(page);
        int gaps = await Aside.DoAsync<int>(
            page,
            """
            await navigator.serviceWorker.ready;
            let gaps = 0, isOver = false;
            const watched = (async () => {
              while (!isOver) {
                const [kept] = await Promise.all([inStore(entries => entries.get(location.pathname)), inStore(entries => entries.getAll())]);
                gaps += kept === undefined;
              }
            })();
            for (let again = 0; again < 30; again++) {
              await fetch(location.href);
            }
            isOver = true;
            await watched;
            return gaps;
            """);
        Assert.Equal(0, gaps);
    }

    [Fact]
    public async Task SigningOut_WithoutTheService_SaysThatItDidNot()
    {
        ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync("/set-up");
        await FirstManager.BecomeAsync(page, shop);
        await page.GotoAsync("/bay");
        await Aside.WaitAsync(page);
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
        await Aside.WaitAsync(page);
        await shop.DisposeAsync();

        await page.ReloadAsync();
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
        await Aside.WaitAsync(page);
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
        await Aside.WaitAsync(page);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/card");
        await shop.DisposeAsync();
        await page.ReloadAsync();
        await Assertions.Expect(page.GetByText("This phone has not shown this page before")).ToBeVisibleAsync(
            new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
    }

    [Fact]
    public async Task PhoneThatIsSignedOut_HasNoPageLeft()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync("/set-up");
        await FirstManager.BecomeAsync(page, shop);
        await page.GotoAsync("/bay");
        await Aside.WaitAsync(page);
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new("^Sign out") }).ClickAsync();
        await page.WaitForURLAsync("**/sign-in**");
        await Aside.WaitAsync(page, "return (await inStore(entries => entries.index('came').count())) === 0;");
    }
}
