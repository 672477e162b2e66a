using System.Text.Json;
using CureWatch.Curing;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>What is pressed while the service is killed, stalled or out of reach. A seeded dice says which, and what else goes wrong.</summary>
public class KilledServiceTests(Chromium browser)
{
    /// <summary>How far a tap's time may be from when it was pressed: as much as the page's clock may be behind the service's. Source (choice).</summary>
    private static readonly TimeSpan Off = TimeSpan.FromSeconds(3);

    private readonly List<(Did Did, DateTimeOffset At)> _pressed = [];
    private readonly Dictionary<Mishap, int> _met = [];

    private enum Mishap
    {
        Killed,
        KilledAsItIsPressed,
        Stalled,
        StalledAndKilled,
        Offline,
    }

    [Fact]
    public Task NoTapIsLostOrDoubled_WhateverBecomesOfTheService() => TryAsync(seed: 7, rounds: 1);

    // It counted from before what was told since, so that a press had the name of another of the last two minutes.
    [Fact]
    public async Task PageThatWasPutAside_CountsWhatWasToldSince()
    {
        using ShopProcess shop = await ShopProcess.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Board);
        await page.GotoAsync($"{ShopProcess.Car}/more");
        await Aside.WaitAsync(page);
        string old = await Aside.DoAsync<string>(page, "return (await inStore(entries => entries.get(location.pathname))).body;");
        foreach (string did in new[] { "wetted", "dried" })
        {
            await page.EvaluateAsync($"document.querySelector('#water button[value={did}]').click()");
            await ToldAsync(page);
        }

        await shop.KillAsync();
        await Aside.DoAsync<object>(
            page,
            $$"""
            const entry = await inStore(entries => entries.get(location.pathname));
            await inStore(entries => entries.put({ ...entry, body: {{JsonSerializer.Serialize(old)}} }));
            """);
        await page.ReloadAsync(new PageReloadOptions { Timeout = Aside.Patience });
        await page.WaitForFunctionAsync(
            "() => { const button = document.querySelector('#water button[value=wetted]'); button?.click(); return button !== null; }",
            null,
            new PageWaitForFunctionOptions { Timeout = Aside.Patience });
        await shop.StartAsync();
        await ToldAsync(page);
        Assert.Equal([Did.Wetted, Did.Dried, Did.Wetted], (await shop.ToldAsync()).Select(t => t.Did));
    }

    [Fact(Explicit = true)]
    public Task NoTapIsLostOrDoubled_InAHundredTries() => TryAsync(seed: 1, rounds: 100);

    private async Task TryAsync(int seed, int rounds)
    {
        var dice = new Random(seed);
        using ShopProcess shop = await ShopProcess.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Board);
        await page.GotoAsync($"{ShopProcess.Car}/more");
        await Aside.WaitAsync(page);
        for (int round = 0; round < rounds; round++)
        {
            await MeetAsync(shop, page, dice, (Mishap)dice.Next(Enum.GetValues<Mishap>().Length));
            if (dice.Next(2) == 0) // else the next comes while this is still being told
            {
                await Assertions.Expect(page.Locator("#waiting .quiet")).ToHaveCountAsync(0, new LocatorAssertionsToHaveCountOptions { Timeout = Aside.Patience });
            }
        }

        await ToldAsync(page);
        IReadOnlyList<Tap> told = await shop.ToldAsync();
        TimeSpan[] off = [.. told.Zip(_pressed, (t, p) => (t.At - p.At).Duration())];
        TestContext.Current.SendDiagnosticMessage(
            $"{_pressed.Count} pressed, {told.Count} told, up to {off.DefaultIfEmpty().Max().TotalSeconds:0.00} s off: {string.Join(", ", _met.OrderBy(m => m.Key).Select(m => $"{m.Value} {m.Key}"))}");
        Assert.Equal(_pressed.Select(p => p.Did), told.Select(t => t.Did));
        Assert.DoesNotContain(off, o => o > Off);
    }

    private async Task MeetAsync(ShopProcess shop, IPage page, Random dice, Mishap mishap)
    {
        _met[mishap] = _met.GetValueOrDefault(mishap) + 1;
        switch (mishap)
        {
            case Mishap.Killed:
                await shop.KillAsync();
                await PressAsync(page, dice, mayReload: true);
                await shop.StartAsync();
                break;
            case Mishap.KilledAsItIsPressed:
                await PressAsync(page, dice, mayReload: false);
                await PassAsync(dice.NextDouble() * 0.1);
                await shop.KillAsync();
                await shop.StartAsync();
                break;
            case Mishap.Stalled:
                shop.Stall();
                await PressAsync(page, dice, mayReload: true);
                await PassAsync(dice.NextDouble() * 12); // the page gives up after eight, and tries again
                shop.GoOn();
                break;
            case Mishap.StalledAndKilled:
                shop.Stall();
                await PressAsync(page, dice, mayReload: true);
                await shop.KillAsync();
                await shop.StartAsync();
                break;
            case Mishap.Offline:
                await page.Context.SetOfflineAsync(true);
                await PressAsync(page, dice, mayReload: false); // the worker is not offline, and would load what this page cannot
                await PassAsync(dice.NextDouble() * 5);
                await page.Context.SetOfflineAsync(false);
                break;
        }

        if (dice.Next(4) == 0)
        {
            await page.ReloadAsync(new PageReloadOptions { Timeout = Aside.Patience });
        }
    }

    /// <summary>Presses one button, or two, each once or twice as a glove does, and maybe opens the page anew before or after.</summary>
    private async Task PressAsync(IPage page, Random dice, bool mayReload)
    {
        for (int buttons = dice.Next(3) == 0 ? 2 : 1; buttons > 0; buttons--)
        {
            Did did = _pressed.Count % 2 == 0 ? Did.Wetted : Did.Dried;
            double at = await page.EvaluateAsync<double>(
                """
                ([did, times]) => {
                  const at = Date.now();
                  for (; times > 0; times--) {
                    document.querySelector(`#water button[value=${did}]`).click();
                  }
                  return at;
                }
                """,
                new object[] { did.ToString().ToLowerInvariant(), dice.Next(3) == 0 ? 2 : 1 });
            _pressed.Add((did, DateTimeOffset.FromUnixTimeMilliseconds((long)at)));
            if (mayReload && dice.Next(3) == 0)
            {
                await page.ReloadAsync(new PageReloadOptions { Timeout = Aside.Patience });
            }
        }
    }

    private static async Task ToldAsync(IPage page) => await page.WaitForFunctionAsync(
        "() => !Object.keys(localStorage).some(key => key.startsWith('curewatch-tap:'))", null, new PageWaitForFunctionOptions { Timeout = Aside.Patience });

    private static Task PassAsync(double seconds) => Task.Delay(TimeSpan.FromSeconds(seconds), TimeProvider.System, TestContext.Current.CancellationToken);
}
