using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>The first minutes of a technician with the demo, in real time: the car has to get dry.</summary>
public class TwelveTapsTests(Chromium browser)
{
    /// <summary>As many as a technician puts up with before the first section is on. Source (choice).</summary>
    private const int MostTaps = 12;

    /// <summary>How long a busy machine may take over what is a matter of seconds [ms]. How long it does take is no matter of these tests.</summary>
    private const int Patience = 180_000;

    /// <summary>The least height of what a glove presses [CSS px]. Source (choice); WCAG 2.2, 2.5.5, has 44 for a bare finger.</summary>
    private const int LeastGlovePx = 72;

    [Fact]
    public async Task FirstSectionOfADemoCar_IsApplied_InTwelveTaps()
    {
        using DemoProcess demo = await DemoProcess.StartAsync();
        IPage page = await browser.OpenAsync(demo.Board);
        page.SetDefaultTimeout(Patience);
        await Taps.CountAsync(page);
        await page.GotoAsync("/bay");
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "bay-1" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { NameRegex = new("Start (a|another) car") }).ClickAsync();
        await page.GetByLabel("Which car?").ClickAsync();
        await page.GetByLabel("Which car?").FillAsync("red coupe");
        await page.GetByRole(AriaRole.Checkbox, new PageGetByRoleOptions { NameRegex = new("^bonnet") }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new("^Start") }).ClickAsync();
        ILocator big = page.Locator("section[aria-label=Next] button.press");
        await Assertions.Expect(big).ToBeVisibleAsync(new LocatorAssertionsToBeVisibleOptions { Timeout = Patience }); // it came in cold, and stays dry minutes later
        for (string words = ""; !words.Contains("Applied", StringComparison.Ordinal) && await Taps.SoFarAsync(page) < MostTaps;)
        {
            words = await big.InnerTextAsync();
            Assert.True((await big.BoundingBoxAsync())!.Height >= LeastGlovePx);
            await big.ClickAsync();
            await Assertions.Expect(big).Not.ToHaveTextAsync(words, new LocatorAssertionsToHaveTextOptions { Timeout = Patience });
        }

        int taps = await Taps.SoFarAsync(page);
        using var client = new HttpClient { BaseAddress = demo.Board };
        JsonElement told = JsonElement.Parse(await client.GetStringAsync("/api/v1/jobs/red-coupe/taps", TestContext.Current.CancellationToken));
        Assert.Contains(told.GetProperty("taps").EnumerateArray(), t => t.GetProperty("did").GetString() == "applied");
        Assert.InRange(taps, 1, MostTaps);
        TestContext.Current.SendDiagnosticMessage(taps.ToString(CultureInfo.InvariantCulture) + " taps");
    }
}
