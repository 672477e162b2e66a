using System.Net;
using CureWatch.Service.Tests.Api;

namespace CureWatch.Service.Tests.Board;

public class StillToGoOnTests
{
    // As the ruling has it: such a layer holds nothing any more.
    [Fact]
    public async Task Layer_FoundClearWithoutIt_IsNotStillToGoOn()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        Assert.Equal(2, await ButtonsAsync(shop));
        await shop.PostAsync(
            "/api/v1/jobs/grey-estate/taps",
            """{"at":"2026-05-04T08:00:00Z","did":"inspected","found":"clear","surface":"wheels","layer":1}""",
            HttpStatusCode.Created);
        Assert.Equal(1, await ButtonsAsync(shop));
    }

    private static async Task<int> ButtonsAsync(ServedShop shop) =>
        (await shop.Client.GetStringAsync("/", TestContext.Current.CancellationToken)).Split("<li class=\"card info beside\"").Length - 1;
}
