using System.Text.Json;
using CureWatch.Service.Photos;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Photos;
using Microsoft.Playwright;

namespace CureWatch.Browser.Tests;

/// <summary>A photo from the phone's file field to the page, in a real browser.</summary>
public sealed class PhotoTests(Chromium browser) : IDisposable
{
    private const string Car = $"/bay/bay-1/jobs/{ShopAtWork.Job}";

    /// <summary>How high a picture is once it is there [px].</summary>
    private const string Shown = "picture => picture.decode().then(() => picture.naturalHeight)";

    /// <summary>How long a busy machine may take over what is a matter of seconds [ms].</summary>
    private const int Patience = 60_000;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Photo_FromTheFileField_IsOnThePage_AndOpens()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync(Car);
        await ChooseAsync(page, Pictures.WithExif(Pictures.Of(width: 1200, height: 800), 6, "SOMEBODY"));
        await page.Locator("#photos select[name=surface]").SelectOptionAsync("bonnet");
        await AddAsync(page);
        await Assertions.Expect(page.Locator(".photo-said")).ToHaveTextAsync("The photo is kept.", new LocatorAssertionsToHaveTextOptions { Timeout = Patience });
        ILocator picture = page.GetByRole(AriaRole.Img, new PageGetByRoleOptions { Name = "Photo of bonnet" });
        await picture.ScrollIntoViewIfNeededAsync();
        Assert.Equal(Darkroom.SmallEdgePx, await picture.EvaluateAsync<int>(Shown));
        await page.Locator(".photos a").ClickAsync();
        await page.WaitForURLAsync("**/photos/*", new PageWaitForURLOptions { Timeout = Patience });
        Assert.Equal(1200, await page.Locator("img").EvaluateAsync<int>(Shown));
    }

    [Fact]
    public async Task Photo_WithoutTheService_OrTooLarge_IsRefusedInASentence_AndStaysChosen()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address);
        await page.GotoAsync(Car);
        await ChooseAsync(page, new byte[PhotoDesk.MostBytes + 1]);
        await AddAsync(page);
        await Assertions.Expect(page.Locator(".photo-said")).ToContainTextAsync("larger than 20 MB");
        await ChooseAsync(page, "<svg/>"u8.ToArray());
        await AddAsync(page);
        await Assertions.Expect(page.Locator(".photo-said")).ToContainTextAsync("saw no picture", new LocatorAssertionsToContainTextOptions { Timeout = Patience });
        await ChooseAsync(page, Pictures.Of());
        await page.Context.SetOfflineAsync(true);
        await AddAsync(page);
        await Assertions.Expect(page.Locator(".photo-said")).ToContainTextAsync("The service does not answer, so the photo is not kept");
        await page.Context.SetOfflineAsync(false);
        await AddAsync(page);
        await Assertions.Expect(page.Locator(".photo-said")).ToHaveTextAsync("The photo is kept.", new LocatorAssertionsToHaveTextOptions { Timeout = Patience });
        JsonElement photos = await shop.GetAsync($"/api/v1/jobs/{ShopAtWork.Job}/photos");
        Assert.Equal(1, photos.GetProperty("photos").GetArrayLength());
    }

    [Fact]
    public async Task Photo_ThatAHangingServiceNeverAnswers_IsSaidNotToBeKept_AndCanBeSentAgain()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        IPage page = await browser.OpenAsync(shop.Address, hasWorker: false);
        await page.GotoAsync(Car);
        await page.EvaluateAsync("() => { window.usual = AbortSignal.timeout; AbortSignal.timeout = limit => window.usual.call(AbortSignal, limit / 60); }");
        await page.RouteAsync("**/photos", _ => Task.CompletedTask);
        await ChooseAsync(page, Pictures.Of());
        await AddAsync(page);
        await Assertions.Expect(page.Locator(".photo-said")).ToContainTextAsync("The service does not answer, so the photo is not kept");
        await page.UnrouteAllAsync();
        await page.EvaluateAsync("() => { AbortSignal.timeout = window.usual; }");
        await AddAsync(page);
        await Assertions.Expect(page.Locator(".photo-said")).ToHaveTextAsync("The photo is kept.", new LocatorAssertionsToHaveTextOptions { Timeout = Patience });
    }

    /// <summary>From a file, as a person does: bytes handed to the page would be fetched there, which its security policy forbids.</summary>
    private async Task ChooseAsync(IPage page, byte[] photo)
    {
        string file = Path.Combine(_folder.FullName, "photo.jpg");
        await File.WriteAllBytesAsync(file, photo, TestContext.Current.CancellationToken);
        await page.EvaluateAsync("document.getElementById('photos').open = true");
        await page.Locator("input[type=file]").SetInputFilesAsync(file);
    }

    private static Task AddAsync(IPage page) => page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Add the photo" }).ClickAsync();
}
