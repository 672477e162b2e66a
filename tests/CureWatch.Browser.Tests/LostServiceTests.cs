using CureWatch.Service.Tests.Api;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>A page whose service is gone or hangs says so.</summary>
public class LostServiceTests(Chromium browser)
{
    /// <summary>How long a busy machine may take over what is a matter of seconds [ms]. How long it does take is no matter of these tests.</summary>
    private const int Patience = 180_000;

    [Fact]
    public async Task ServiceThatIsGone_IsSaidOnThePage_InWords()
    {
        ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync("/wall");
        await Assertions.Expect(page.Locator(".lost")).ToBeHiddenAsync();
        await shop.DisposeAsync();
        await Assertions.Expect(page.Locator(".lost")).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
    }

    [Theory]
    [InlineData("/wall", Explicit = true)]
    [InlineData("/bay/bay-2")]
    public async Task ServiceThatHangs_IsSaidOnThePage_AndThePageIsLiveAgainByItself(string path)
    {
        using DemoProcess demo = await DemoProcess.StartAsync();
        IPage page = await browser.OpenAsync(demo.Board);
        await page.GotoAsync(path);
        await Assertions.Expect(page.GetByRole(AriaRole.Status).First).ToHaveTextAsync("live");
        demo.Stall();
        await Assertions.Expect(page.Locator(".lost")).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
        demo.GoOn();
        await Assertions.Expect(page.Locator(".lost")).ToBeHiddenAsync(new LocatorAssertionsToBeHiddenOptions { Timeout = Patience });
    }
}
