using System.Net;
using CureWatch.Service.Tests.Api;

namespace CureWatch.Service.Tests.Board;

/// <summary>A caution that stands there three times is read as often as none.</summary>
public class CautionTests
{
    // Beside what is next, and again where it was still to go on.
    [Theory]
    [InlineData("/")]
    [InlineData("/jobs/grey-estate")]
    public async Task Caution_OfSolvent_StandsOnceOnTheCardOfACar(string page)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        Assert.Equal(2, (await shop.WordsAsync(page)).Split("solvent vapour catches fire").Length);
    }
}
