using CureWatch.Service.Tests.Api;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>What a phone has put aside for the time without the service, and when that goes.</summary>
public class PutAsideTests(Chromium browser)
{
    private const string NoPageLeft = "return (await inStore(entries => entries.index('came').count())) === 0;";

    [Fact]
    public async Task PageOfAnOlderVersion_GoesWithWhatItIsMadeOf()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await PutAsideAsync(shop);
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
        IPage page = await PutAsideAsync(shop);
        int[] seen = await Aside.DoAsync<int[]>(
            page,
            """
            const came = [];
            let gaps = 0, isOver = false;
            const watched = (async () => {
              while (!isOver) {
                const kept = await inStore(entries => entries.get(location.pathname));
                gaps += kept === undefined;
                came.push(kept?.came);
              }
            })();
            for (let again = 0; again < 30; again++) {
              await fetch(location.href);
            }
            isOver = true;
            await watched;
            return [gaps, new Set(came).size];
            """);
        Assert.Equal(0, seen[0]);
        Assert.InRange(seen[1], 3, int.MaxValue); // it was put aside again as it was looked at
    }

    [Fact]
    public async Task SigningOut_WithoutTheService_SaysThatItDidNot()
    {
        ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync("/set-up");
        await FirstManager.BecomeAsync(page, shop);
        await page.GotoAsync("/bay");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Deutsch" }).ClickAsync();
        await Aside.WaitAsync(page);
        await Aside.WaitAsync(page, "return (await inStore(entries => entries.get('/still-in')))?.body.includes('lang=\"de\"');");
        await shop.DisposeAsync();
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new("^Abmelden") }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading)).ToHaveTextAsync("Noch angemeldet");
        await Aside.WaitAsync(page, NoPageLeft);
    }

    // The service is newer than the page that asks: what it answers is made of scripts that this phone has not loaded.
    [Fact]
    public async Task PageWithoutWhatItIsMadeOf_IsNotPutAside()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await PutAsideAsync(shop);
        await Aside.WaitAsync( // again and again: what is still being put aside may come in between
            page,
            """
            await inStore(entries => entries.clear());
            await fetch(location.href);
            return (await inStore(entries => entries.count())) === 0;
            """);
        await page.ReloadAsync();
        await Aside.WaitAsync(page);
    }

    // It was put aside and thrown away at once, for all that came while the clock was wrong seemed newer.
    [Fact]
    public async Task PhoneWhoseClockWasAhead_StillPutsAside()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await PutAsideAsync(shop);
        bool[] found = await Aside.DoAsync<bool[]>(
            page,
            """
            const entry = await inStore(entries => entries.get(location.pathname));
            const later = Date.now() + 3600000;
            await inStore(entries => {
              for (let number = 0; number < 40; number++) {
                entries.put({ ...entry, path: `/bay/${number}`, came: later + number, asked: later });
              }
              entries.put({ ...entry, came: later, asked: later });
            });
            await fetch(location.href);
            const kept = await inStore(entries => entries.getAll());
            return [kept.some(e => e.path === location.pathname && e.came < later), kept.some(e => e.path === "/bay/0")];
            """);
        Assert.Equal([true, false], found);
    }

    // It would be taken for what the phone has heard last, without what was told since.
    [Fact]
    public async Task PageThatWasAskedForEarlier_IsNotPutInThePlaceOfALaterOne()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await PutAsideAsync(shop);
        string body = await Aside.DoAsync<string>(
            page,
            """
            const entry = await inStore(entries => entries.get(location.pathname));
            const asked = Date.now() + 45000;
            await inStore(entries => entries.put({ ...entry, asked, came: asked, body: "later" }));
            await fetch(location.href);
            return (await inStore(entries => entries.get(location.pathname))).body;
            """);
        Assert.Equal("later", body);
    }

    [Fact]
    public async Task CarThatWasLookedAt_OpensWithoutTheService_SaysSo_AndKeepsWhatIsPressed()
    {
        ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await PutAsideAsync(shop);
        await shop.DisposeAsync();

        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".lost")).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Aside.Patience });
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new("^Got wet") }).First.ClickAsync();
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("Got wet");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("Got wet", new LocatorAssertionsToContainTextOptions { Timeout = Aside.Patience });
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
            new LocatorAssertionsToBeVisibleOptions { Timeout = Aside.Patience });
        await page.GotoAsync(car);
        await Assertions.Expect(page.Locator(".lost")).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Aside.Patience });
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
            new LocatorAssertionsToBeVisibleOptions { Timeout = Aside.Patience });
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
        await Aside.WaitAsync(page, NoPageLeft);
    }

    /// <summary>A phone on which a page of the car was opened and has been put aside.</summary>
    private async Task<IPage> PutAsideAsync(ServedShop shop)
    {
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        await Aside.WaitAsync(page);
        return page;
    }
}
