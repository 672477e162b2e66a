using System.Net;
using CureWatch.Service.Tests.Api;

namespace CureWatch.Browser.Tests;

/// <summary>A served shop in which a car is worked on: a coat levelled, one to be looked at now, a cold bonnet that is warned of.</summary>
internal static class ShopAtWork
{
    public const string Job = "grey-estate";

    public static async Task<ServedShop> OpenAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(3);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await TapAsync(shop, "applied", 1);
        await shop.PassAsync(5);
        await TapAsync(shop, "levelled", 1);
        await TapAsync(shop, "applied", 2);
        await shop.PassAsync(3, humidityPct: 78, panelC: 14);
        return shop;
    }

    /// <summary>The same shop a little earlier: the car is wiped down, and can be begun.</summary>
    public static async Task<ServedShop> OpenWipedAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PostAsync(
            $"/api/v1/jobs/{Job}/taps", $$"""{"id":"wiped","at":"{{shop.Clock.GetUtcNow():yyyy-MM-ddTHH:mm:ssZ}}","did":"panel-wiped"}""", HttpStatusCode.Created);
        await shop.PassAsync(4);
        return shop;
    }

    /// <summary>The same shop a little later: its first section flashes, in air in which the sheet tells by when to level it.</summary>
    public static async Task<ServedShop> OpenFlashingAsync()
    {
        ServedShop shop = await OpenWipedAsync();
        await TapAsync(shop, "applied", 1);
        await shop.PassAsync(3);
        return shop;
    }

    private static async Task TapAsync(ServedShop shop, string did, int section) => await shop.PostAsync(
        $"/api/v1/jobs/{Job}/taps",
        $$"""{"id":"{{did}}-{{section}}","at":"{{shop.Clock.GetUtcNow():yyyy-MM-ddTHH:mm:ssZ}}","did":"{{did}}","surface":"bonnet","layer":1,"section":{{section}},"by":"Ina"}""",
        HttpStatusCode.Created);
}
