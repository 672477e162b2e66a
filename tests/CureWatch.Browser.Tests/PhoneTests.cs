using System.Collections.Immutable;
using System.Net;
using System.Text.Json;
using CureWatch.Curing;
using CureWatch.Service.Api;
using CureWatch.Service.Tests.Api;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>The bay phone in a real browser.</summary>
public class PhoneTests(Chromium browser)
{
    /// <summary>How long a busy machine may take over what is a matter of seconds [ms]. How long it does take is no matter of these tests.</summary>
    private const int Patience = 180_000;

    [Fact]
    public async Task WhatIsPressedWithoutTheService_IsToldOnceItIsThere_OnceEach_InOrder()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        await using RunningClock running = new(shop.Clock);
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        int before = Told(shop).Length;
        string[] pressed = ["Got wet", "Dried", "Got wet", "Dried"];
        foreach (string button in pressed)
        {
            await page.Context.SetOfflineAsync(true);
            await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new($"^{button}") }).First.ClickAsync();
            await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync(button);
        }

        Assert.Equal(before, Told(shop).Length);
        await page.Context.SetOfflineAsync(false);
        await Assertions.Expect(page.Locator("#waiting")).ToBeEmptyAsync(new LocatorAssertionsToBeEmptyOptions { Timeout = Patience });
        Tap[] told = [.. Told(shop).Skip(before)];
        Assert.Equal([Did.Wetted, Did.Dried, Did.Wetted, Did.Dried], told.Select(t => t.Did));
        Assert.Equal(told.OrderBy(t => t.At), told);
    }

    [Fact]
    public async Task CarOfWhichNothingIsTaken_HoldsUpNoOther()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address, hasWorker: false);
        await page.RouteAsync("**/jobs/other/taps", tap => tap.FulfillAsync(new RouteFulfillOptions { Status = 503 }));
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        await page.EvaluateAsync(
            """
            () => localStorage.setItem("curewatch-tap:2026", JSON.stringify(
              { action: "/bay/bay-1/jobs/other/taps", pressedAt: new Date().toISOString(), pressedOn: Date.now(), who: "", words: "Dried other", fields: [["did", "dried"]] }))
            """);
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Got wet" }).First.ClickAsync();
        await Assertions.Expect(page.Locator("#waiting")).Not.ToContainTextAsync("Got wet", new LocatorAssertionsToContainTextOptions { Timeout = Patience });
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("Dried other");
        Assert.Equal(Did.Wetted, Told(shop)[^1].Did);
    }

    [Fact]
    public async Task WhatWasSaidOfATap_IsNotSaidOfTheNext_AndWhatIsOnItsWayIsNotTakenBack()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        await page.EvaluateAsync("() => { const ask = fetch; fetch = (what, how) => how?.method === 'POST' ? new Promise(() => undefined) : ask(what, how); }");
        ILocator form = page.Locator("form:has([value=wetted])").First;
        ILocator ago = form.Locator("[name=ago]");
        string usual = await ago.InputValueAsync();
        await ago.SelectOptionAsync("10");
        await form.Locator("[value=wetted]").ClickAsync();
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("Got wet");
        await Assertions.Expect(ago).ToHaveValueAsync(usual);
        await Assertions.Expect(page.Locator("#waiting button")).ToHaveCountAsync(0);
    }

    // The coat is level, and only the service does not know it: to wet it again would spoil it.
    [Fact]
    public async Task CoatThatWasLevelledWithoutTheService_IsNotCalledTo_AndItsPanelSaysThatItIsKept()
    {
        await using ServedShop shop = await ShopAtWork.OpenFlashingAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.RouteAsync("**/api/v1/live", live => live.AbortAsync()); // each beat would set the page's clock to the shop's, which stands
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}");
        await page.Locator("details.coming summary").ClickAsync();
        ILocator panel = page.Locator("section[data-call]");
        await Assertions.Expect(page.Locator("#call")).ToContainTextAsync("look now");
        await page.Context.SetOfflineAsync(true);
        await panel.Locator("button[value=levelled]").ClickAsync();
        await Assertions.Expect(panel).ToContainTextAsync("kept on this phone");
        await PassAsync(page, TimeSpan.FromMinutes(20));
        await Assertions.Expect(page.Locator("#call")).Not.ToContainTextAsync("re-wet");
        await page.Locator("#waiting button").ClickAsync(); // taken back: now it is late
        await Assertions.Expect(page.Locator("#call")).ToContainTextAsync("re-wet and level now");
        await Assertions.Expect(panel).Not.ToContainTextAsync("kept on this phone");
    }

    // What does not flash has no time that it could be reckoned for: the script broke on it, and every press of that car stayed on the phone.
    [Fact]
    public async Task TapInABayThatWasNeverHeard_IsToldAtOnce()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}");
        await page.Locator("form[data-tap]:has(button[value=measured]) input[name=panelC]").First.FillAsync("18");
        await page.RunAndWaitForResponseAsync(
            () => page.Locator("form[data-tap] button[value=measured]:visible").First.ClickAsync(),
            answer => answer.Request.Method == "POST",
            new PageRunAndWaitForResponseOptions { Timeout = Patience });
        JsonElement told = await shop.GetAsync($"/api/v1/jobs/{ShopAtWork.Job}/taps");
        Assert.Single(told.GetProperty("taps").EnumerateArray());
    }

    [Fact]
    public async Task FirstWipe_OutlivesAReload()
    {
        await using ServedShop shop = await ShopAtWork.OpenWipedAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}");
        ILocator first = page.Locator("[data-first]:visible").First;
        await first.ClickAsync();
        await Assertions.Expect(first).ToContainTextAsync("First wipe since");
        await page.ReloadAsync();
        await Assertions.Expect(first).ToContainTextAsync("First wipe since");
    }

    // Without it level-by would count from the last wipe, and come too late.
    [Fact]
    public async Task FirstWipe_IsThereAgain_WhenItsCoatIsTakenBackOrRefused()
    {
        await using ServedShop shop = await ShopAtWork.OpenWipedAsync();
        IPage page = await browser.OpenAsync(shop.Address, hasWorker: false);
        await page.RouteAsync("**/api/v1/live", live => live.AbortAsync()); // each beat would set the page's clock to the shop's, which stands
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}");
        ILocator next = page.Locator("section[aria-label=Next]"), first = next.Locator("[data-first]"), applied = next.Locator("button[value=applied]");
        await first.ClickAsync();
        await page.Context.SetOfflineAsync(true);
        await applied.ClickAsync();
        await Assertions.Expect(first).ToHaveTextAsync("First wipe now");
        await page.Locator("#waiting button").ClickAsync();
        await Assertions.Expect(first).ToContainTextAsync("First wipe since");
        await page.Context.SetOfflineAsync(false);

        await page.RouteAsync("**/taps", tap => tap.FulfillAsync(new RouteFulfillOptions { Status = 409, ContentType = "text/html", Body = "<main id=content>no</main>" }));
        await page.EvaluateAsync("() => { const before = performance.now.bind(performance); performance.now = () => before() + 3000; }"); // no bounce
        await applied.ClickAsync();
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("Not taken");
        await Assertions.Expect(first).ToContainTextAsync("First wipe since");
        await page.UnrouteAllAsync();

        shop.Clock.Advance(TimeSpan.FromMinutes(1));
        await page.EvaluateAsync("() => { const before = performance.now.bind(performance); performance.now = () => before() + 3000; }");
        await applied.ClickAsync();
        await page.Locator(".undo button").ClickAsync(new LocatorClickOptions { Timeout = Patience });
        await Assertions.Expect(page.Locator(".undo")).ToHaveCountAsync(0, new LocatorAssertionsToHaveCountOptions { Timeout = Patience });
        await Assertions.Expect(first).ToContainTextAsync("First wipe since");
        Assert.Equal([Did.PanelWiped, Did.Applied, Did.Withdrawn], Told(shop).Select(t => t.Did));
        Assert.NotNull(Told(shop)[1].StartedAt);
    }

    [Fact]
    public async Task WhatWasFilledIn_IsOfferedAgain_WhenItsTapIsRefused_FromAnyPageOfTheCar()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address, hasWorker: false);
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}/more");
        ILocator spot = page.Locator("#spot"), waiting = page.Locator("#waiting");
        await page.RouteAsync("**/api/v1/live", live => live.AbortAsync()); // each beat would set the page's clock to the shop's, which stands
        await page.RouteAsync("**/taps", tap => tap.FulfillAsync(new RouteFulfillOptions { Status = 400, ContentType = "text/html", Body = "<main id=content>no</main>" }));
        await spot.Locator("[name=surface]").SelectOptionAsync("wheels");
        await spot.Locator("[name=section]").SelectOptionAsync("all");
        await spot.Locator("[name=panelC]").FillAsync("21.5");
        await spot.Locator("[name=note]").FillAsync("behind the spokes");
        await spot.Locator("[name=ago]").SelectOptionAsync("5");
        await spot.Locator("button[value=measured]").ClickAsync();
        await Assertions.Expect(waiting).ToContainTextAsync("Not taken");
        await Assertions.Expect(spot.Locator("[name=note]")).ToHaveValueAsync("");
        await page.GotoAsync($"/bay/bay-1/jobs/{ShopAtWork.Job}");
        await waiting.GetByRole(AriaRole.Button, new LocatorGetByRoleOptions { Name = "Fill it in again" }).ClickAsync();
        await page.WaitForURLAsync("**/more");
        await Assertions.Expect(spot.Locator("[name=note]")).ToHaveValueAsync("behind the spokes");
        await Assertions.Expect(spot.Locator("[name=panelC]")).ToHaveValueAsync("21.5");
        await Assertions.Expect(spot.Locator("[name=surface]")).ToHaveValueAsync("wheels");
        await page.EvaluateAsync("() => new Promise(done => document.addEventListener('shown', done, { once: true }))");
        await PassAsync(page, TimeSpan.FromMinutes(2));
        await Assertions.Expect(waiting).ToContainTextAsync("Not taken"); // until it is told
        await page.UnrouteAsync("**/taps");
        IRequest told = await page.RunAndWaitForRequestAsync(() => spot.Locator("button[value=measured]").ClickAsync(), "**/taps");
        Assert.Matches("[?&]ago=([7-9]|1[0-9])&", told.PostData); // and as long as the machine took over it
        await Assertions.Expect(waiting).Not.ToContainTextAsync("Not taken");
        await Assertions.Expect(spot.Locator("[name=ago]")).ToHaveValueAsync("0");
    }

    /// <summary>Lets time pass on the page, until what it does every half second was done by then.</summary>
    private static async Task PassAsync(IPage page, TimeSpan time)
    {
        await page.EvaluateAsync(
            """
            passed => {
              const before = Date.now;
              Date.now = () => before() + passed;
              document.body.insertAdjacentHTML("beforeend", `<p data-until="${new Date(Date.parse(document.getElementById("clock").dateTime) + passed / 2).toISOString()}"></p>`);
            }
            """,
            time.TotalMilliseconds);
        await page.Locator("body > [data-until][hidden]").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Attached, Timeout = Patience });
    }

    private static ImmutableArray<Tap> Told(ServedShop shop) => shop.Services.GetRequiredService<Lookout>().Now()!.Shop.Find(ShopAtWork.Job)!.Told;
}
