using System.Net;
using CureWatch.Service.Tests.Api;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>A screen nobody touches: all of it is there without scrolling, and large enough to be read from three metres.</summary>
public class WallTests(Chromium browser)
{
    /// <summary>
    /// ISO 9241-303 asks of letters 16 minutes of arc to be read with ease (figure from memory): 14 mm at 3 m. On a set 0.95 m wide, and with capitals
    /// seven tenths of the type's size, that is a font of a fiftieth of the screen's width; a wall with more to say than usual may go down to two thirds of it.
    /// </summary>
    private const double LeastShareOfWidth = 1 / 50.0 * 2 / 3;

    [Fact]
    public async Task CarsInNoBay_FitOnTheScreenToo()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        foreach (string job in new[] { "red-coupe", "blue-hatch" })
        {
            await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("grey-estate", job, StringComparison.Ordinal).Replace("grey estate", job, StringComparison.Ordinal), HttpStatusCode.Created);
            foreach (string did in new[] { "\"applied\",\"surface\":\"wheels\",\"layer\":1", "\"moved\",\"toBay\":\"store\"" })
            {
                await shop.PostAsync($"/api/v1/jobs/{job}/taps", $$"""{"at":"{{shop.Clock.GetUtcNow():yyyy-MM-ddTHH:mm:ssZ}}","did":{{did}}}""", HttpStatusCode.Created);
            }
        }

        IPage page = await browser.OpenAsync(shop.Address, 1280);
        await page.SetViewportSizeAsync(1280, 720);
        await page.GotoAsync("/wall", new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        ILocator cars = page.Locator(".elsewhere p");
        await Assertions.Expect(cars).ToHaveCountAsync(2);
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(AppContext.BaseDirectory, "pictures", "wall-elsewhere-1280.png") });
        Assert.InRange(await page.EvaluateAsync<int>("document.documentElement.scrollHeight"), 648, 720);
        Assert.True(await cars.First.EvaluateAsync<double>("e => parseFloat(getComputedStyle(e).fontSize)") >= 1280 * LeastShareOfWidth);
        await Assertions.Expect(cars.Last).ToBeInViewportAsync(new LocatorAssertionsToBeInViewportOptions { Ratio = 1 });
    }

    /// <summary>How long a busy machine may take over what is a matter of seconds [ms].</summary>
    private const int Patience = 180_000;

    // Nobody touches the screen: the line at the top was that of the hour in which it was switched on.
    [Fact]
    public async Task WallThatIsOpen_SaysThatItIsLockUp_AndThatItIsMorning_ByItself()
    {
        await using ServedShop shop = await ServedShop.OpenThreeHoursADayAsync();
        await shop.PassAsync(70);
        IPage page = await browser.OpenAsync(shop.Address, 1280);
        await page.GotoAsync("/wall");
        ILocator top = page.Locator("header.top");
        await Assertions.Expect(page.GetByRole(AriaRole.Status).First).ToHaveTextAsync("live");
        await Assertions.Expect(top).Not.ToContainTextAsync("Lock-up at");
        shop.Clock.Advance(TimeSpan.FromMinutes(60));
        await shop.PassAsync(1);
        await Assertions.Expect(top).ToContainTextAsync("Lock-up at 12:00", new LocatorAssertionsToContainTextOptions { Timeout = Patience });
        shop.Clock.Advance(TimeSpan.FromHours(22));
        await shop.PassAsync(1);
        await Assertions.Expect(top).ToContainTextAsync("Good morning", new LocatorAssertionsToContainTextOptions { Timeout = Patience });
        await Assertions.Expect(top).Not.ToContainTextAsync("Lock-up at");
    }

    [Theory]
    [InlineData(1280, 720)]
    [InlineData(1920, 1080)]
    [InlineData(3840, 2160)]
    public async Task Wall_FillsTheScreen_WithoutScrolling_InLettersForThreeMetres(int width, int height)
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address, width);
        await page.SetViewportSizeAsync(width, height);
        await page.GotoAsync("/wall", new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        Assert.InRange(await page.EvaluateAsync<int>("document.documentElement.scrollHeight"), height * 9 / 10, height);
        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        foreach (string what in new[] { ".now", ".leaves", ".spread .big", ".how" })
        {
            double px = await page.Locator($".wall {what}").First.EvaluateAsync<double>("e => parseFloat(getComputedStyle(e).fontSize)");
            Assert.True(px >= width * LeastShareOfWidth, $"{what} is {px} px");
        }

        await Assertions.Expect(page.Locator(".wall .chart").First).ToBeInViewportAsync();
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(AppContext.BaseDirectory, "pictures", $"wall-at-work-{width}.png") });
    }

    // It stood in the middle of its card, on two thirds of the width.
    [Theory]
    [InlineData(1280, 720)]
    [InlineData(1920, 1080)]
    [InlineData(3840, 2160)]
    public async Task Charts_AreAsWideAsTheirCards_AndTheirLettersAreNotStretched_AlsoAfterARefreshAndAtLockUp(int width, int height)
    {
        await using ServedShop shop = await ServedShop.OpenThreeHoursADayAsync();
        await shop.PassAsync(70);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        IPage page = await browser.OpenAsync(shop.Address, width);
        await page.SetViewportSizeAsync(width, height);
        await page.GotoAsync("/wall");
        await AssertChartsAsync(page);
        await shop.PassAsync(60); // until lock-up
        await Assertions.Expect(page.Locator("header.top")).ToContainTextAsync("Lock-up at 12:00", new LocatorAssertionsToContainTextOptions { Timeout = Patience });
        await AssertChartsAsync(page);
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(AppContext.BaseDirectory, "pictures", $"wall-at-lock-up-{width}.png") });
        await page.Context.SetOfflineAsync(true);
        await page.EvaluateAsync( // what was heard last is always long ago, though what listens already may hear on
            "() => { const before = performance.now.bind(performance); let leapt = 0; performance.now = () => before() + (leapt += 20000); }");
        await Assertions.Expect(page.Locator(".lost")).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Patience });
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(AppContext.BaseDirectory, "pictures", $"wall-stale-{width}.png") });
        await AssertChartsAsync(page);
        Assert.InRange(await page.EvaluateAsync<int>("document.documentElement.scrollHeight"), 0, height);
    }

    private static async Task AssertChartsAsync(IPage page)
    {
        double[][] charts = await page.Locator(".wall .chart").EvaluateAllAsync<double[][]>(
            """
            charts => charts.filter(chart => chart.clientHeight > 40).map(chart => { // at lock-up what is to be done may leave it no room
              const sides = [...chart.querySelectorAll(".ink-grid")].map(line => line.getBoundingClientRect());
              const across = Math.max(...sides.map(s => s.right)) - Math.min(...sides.map(s => s.left));
              const letters = [...chart.querySelectorAll("text")].map(text => {
                const [seen, drawn] = [text.getBoundingClientRect(), text.getBBox()];
                return (seen.width / seen.height) / (drawn.width / drawn.height);
              });
              return [across / chart.getBoundingClientRect().width, Math.min(...letters), Math.max(...letters)];
            })
            """);
        Assert.NotEmpty(charts);
        Assert.All(charts, chart =>
        {
            Assert.InRange(chart[0], 0.88, 1);
            Assert.InRange(chart[1], 0.95, 1.05);
            Assert.InRange(chart[2], 0.95, 1.05);
        });
    }
}
