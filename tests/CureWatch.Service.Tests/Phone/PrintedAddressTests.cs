using System.Net;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Phone;

/// <summary>Where the codes and addresses lead that are printed or scanned.</summary>
public class PrintedAddressTests
{
    // A proxy asks by http, whatever browsers ask it by; what it says of itself is not believed.
    [Theory]
    [InlineData("https://board.example")]
    [InlineData("https://board.example:8443")]
    public async Task Card_BehindAProxy_LeadsToTheAddressOfTheSettings(string address)
    {
        await using ServedShop shop = await ServedShop.OpenBehindProxyAsync(new Uri(address));
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        Assert.Contains($">{address}{Thumb.Car}<", await shop.TextAsync($"{Thumb.Car}/card"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pairing_BehindAProxy_LeadsToTheAddressOfTheSettings()
    {
        await using ServedShop shop = await ServedShop.OpenBehindProxyAsync(new Uri("https://board.example"), isSignedIn: true);
        Assert.Contains("https://board.example/pair/", await shop.WordsAsync("/pair"), StringComparison.Ordinal);
    }
}
