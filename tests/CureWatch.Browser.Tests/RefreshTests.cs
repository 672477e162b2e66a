using System.Net;
using CureWatch.Service.People;
using CureWatch.Service.Tests.Api;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>What a page does to itself while somebody has it open.</summary>
public class RefreshTests(Chromium browser)
{
    /// <summary>How long a busy machine may take over what is a matter of seconds [ms].</summary>
    private const int Patience = 180_000;

    [Fact]
    public async Task WhatIsTypedOfATap_StaysWithIt_WhenAnotherIsTold()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/told");
        ILocator levelled = page.Locator("li", new PageLocatorOptions { Has = page.Locator("input[name=corrects][value=levelled-1]") });
        await levelled.Locator("summary").ClickAsync();
        await levelled.Locator("input[name=doneAt]").FillAsync("2026-05-04T09:03:21");
        await shop.PostAsync(
            $"/api/v1/jobs/{ShopAtWork.Job}/taps", $$"""{"id":"wet","at":"{{shop.Clock.GetUtcNow():yyyy-MM-ddTHH:mm:ssZ}}","did":"wetted"}""", HttpStatusCode.Created);
        await Assertions.Expect(page.Locator("ol.told > li")).ToHaveCountAsync(4, new LocatorAssertionsToHaveCountOptions { Timeout = Patience });
        ILocator open = page.Locator("ol.told details[open]");
        await Assertions.Expect(open.Locator("input[name=corrects]").First).ToHaveValueAsync("levelled-1");
        await Assertions.Expect(open.Locator("input[name=doneAt]")).ToHaveValueAsync("2026-05-04T09:03:21");
    }

    // The next act moves on to the wheels while somebody reads the bonnet: what they are about to tell stays the bonnet's.
    [Fact]
    public async Task SurfaceThatWasOffered_StaysChosen_WhenTheWorkMovesOn()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        ILocator surface = page.Locator("#look select[name=surface]");
        await Assertions.Expect(surface).ToHaveValueAsync("bonnet");
        await shop.PostAsync(
            $"/api/v1/jobs/{ShopAtWork.Job}/taps",
            $$"""{"id":"levelled-2","at":"{{shop.Clock.GetUtcNow():yyyy-MM-ddTHH:mm:ssZ}}","did":"levelled","surface":"bonnet","layer":1,"section":2}""",
            HttpStatusCode.Created);
        await Assertions.Expect(page.GetByText("section 2: levelled").First).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
        await Assertions.Expect(surface).ToHaveValueAsync("bonnet");
    }

    [Fact]
    public async Task Clock_GoesOn_WhereThePhonesOwnStandsStillAsItSleeps()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.RouteAsync("**/api/v1/live", live => live.AbortAsync()); // the shop's clock stands, and each beat of the service would set the page's to it
        await page.GotoAsync("/bay/bay-1");
        await page.EvaluateAsync("() => { const slept = performance.now(); performance.now = () => slept; }");
        ILocator clock = page.Locator("#clock");
        string before = await clock.InnerTextAsync();
        await Assertions.Expect(clock).Not.ToHaveTextAsync(before, new LocatorAssertionsToHaveTextOptions { Timeout = Patience });
    }

    // An upgrade never reached a screen that is open: new markup stood under its old styles.
    [Fact]
    public async Task WallOfAnOlderVersion_LoadsItselfAgain()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await OpenBeforeAnUpgradeAsync(shop, "/wall");
        await page.WaitForFunctionAsync("() => window.isOld === undefined", null, new PageWaitForFunctionOptions { Timeout = Patience });
        await Assertions.Expect(page.Locator(".wall .bay").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task PhonePageOfAnOlderVersion_SaysSo_AndLosesNothing()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await OpenBeforeAnUpgradeAsync(shop, $"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        ILocator note = page.Locator("#look input[name=note]"), newer = page.Locator("#newer");
        await note.FillAsync("left edge");
        await Assertions.Expect(newer).ToContainTextAsync("The service is newer than this page", new LocatorAssertionsToContainTextOptions { Timeout = Patience });
        await Assertions.Expect(note).ToHaveValueAsync("left edge");
        await newer.Locator("button").ClickAsync();
        await page.WaitForFunctionAsync("() => window.isOld === undefined", null, new PageWaitForFunctionOptions { Timeout = Patience });
    }

    /// <summary>A page whose service has other styles by the time it asks again.</summary>
    private async Task<IPage> OpenBeforeAnUpgradeAsync(ServedShop shop, string path)
    {
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync(path);
        await page.EvaluateAsync(
            """
            () => {
              const ask = fetch;
              window.isOld = true;
              fetch = async (what, how) => {
                const answer = await ask(what, how);
                return what === location.pathname ? new Response((await answer.text()).replaceAll("/assets/", "/assets/0")) : answer;
              };
            }
            """);
        return page;
    }

    [Fact]
    public async Task BoardOfWhoeverIsSignedOut_LeadsToTheSignInPage_ByItself()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync("/set-up");
        await FirstManager.BecomeAsync(page, shop);
        await page.GotoAsync("/bay");
        await Assertions.Expect(page.GetByRole(AriaRole.Status).First).ToHaveTextAsync("live");
        await page.Context.ClearCookiesAsync(); // as when the day that it was good for is over
        shop.Services.GetRequiredService<Staff>().Change(list => list.SignedOut(list.SignedIn[0].Id));
        await page.WaitForURLAsync("**/sign-in?then=%2Fbay", new PageWaitForURLOptions { Timeout = Patience });
    }
}
