using System.Net;
using System.Text.Json;
using CureWatch.Service.Backups;
using CureWatch.Warnings;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Service.Tests.Api;

public class HealthEndpointsTests
{
    [Fact]
    public async Task Service_ThatDoesItsWork_IsReady()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        Assert.Equal("live", (await shop.GetAsync("/health/live")).GetProperty("status").GetString());
        JsonElement ready = await shop.GetAsync("/health/ready");
        Assert.Equal(("ready", 0), (ready.GetProperty("status").GetString(), ready.GetProperty("troubles").GetArrayLength()));
    }

    [Theory]
    [InlineData("/health/live", HttpStatusCode.OK)]
    [InlineData("/api/v1/bays", HttpStatusCode.OK)]
    [InlineData("/", HttpStatusCode.OK)]
    [InlineData("/api/v1/bays/attic", HttpStatusCode.NotFound)]
    [InlineData("/api/v1/live", HttpStatusCode.MethodNotAllowed)]
    public async Task Head_IsAnsweredAsGet_WithoutTheBody(string path, HttpStatusCode status)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using var request = new HttpRequestMessage(HttpMethod.Head, path);
        using HttpResponseMessage response = await shop.Client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(status, response.StatusCode);
        Assert.Empty(await response.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
        Assert.Equal("live", (await shop.GetAsync("/health/live")).GetProperty("status").GetString()); // the connection is still good
    }

    [Fact]
    public async Task Service_WhoseBrokerIsAway_IsReady_AndSaysSo()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        shop.Troubles.Raise(WarningKind.BrokerTrouble, "refused");
        foreach (string path in new[] { "/health/ready", "/api/v1/warnings" })
        {
            JsonElement trouble = Assert.Single((await shop.GetAsync(path)).GetProperty("troubles").EnumerateArray());
            Assert.Equal(("broker-trouble", "2026-05-04T08:00:00Z"), (trouble.GetProperty("kind").GetString(), trouble.GetProperty("raisedAt").GetString()));
        }
    }

    [Fact]
    public async Task Service_ThatIsBackedUp_SaysHowOldTheNewestBackupIs_ThereAndOnTheBoard()
    {
        await using ServedShop shop = await ServedShop.OpenBackedUpAsync();
        Assert.Equal(JsonValueKind.Null, (await shop.GetAsync("/health/ready")).GetProperty("backup").GetProperty("at").ValueKind);
        Assert.Contains("No backup yet", await shop.Client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);

        shop.Services.GetRequiredService<BackupHealth>().Newest = new KeptBackup("nights/a.zip", ServedShop.Start.AddHours(-30), 5);
        JsonElement backup = (await shop.GetAsync("/health/ready")).GetProperty("backup");
        Assert.Equal(("1.06:00:00", "a.zip", 5), (backup.GetProperty("age").GetString(), backup.GetProperty("file").GetString(), backup.GetProperty("bytes").GetInt64()));
        string board = await shop.Client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Contains("Newest backup: <time datetime=\"2026-05-03T02:00:00.000Z\">", board, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Service_ThatIsNotBackedUp_SaysNothingOfIt()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        Assert.Equal(JsonValueKind.Null, (await shop.GetAsync("/health/ready")).GetProperty("backup").ValueKind);
        Assert.DoesNotContain("backup", await shop.Client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Service_ThatCannotStore_IsNotReady_AndSaysWhyAndWhatToDo()
    {
        await using ServedShop shop = await ServedShop.OpenFragileAsync();
        await shop.BreakJournalAsync();
        string detail = (await shop.GetAsync("/health/ready", HttpStatusCode.ServiceUnavailable)).GetProperty("detail").GetString()!;
        using (HttpResponseMessage no = await shop.Client.GetAsync(new Uri("/health/ready", UriKind.Relative), TestContext.Current.CancellationToken))
        {
            Assert.Equal("5", no.Headers.RetryAfter?.ToString());
        }

        Assert.StartsWith("The journal cannot be written: Could not find a part of the path", detail, StringComparison.Ordinal);
        Assert.Contains("goes on by itself", detail, StringComparison.Ordinal);
        Assert.Equal("live", (await shop.GetAsync("/health/live")).GetProperty("status").GetString());
        Assert.Equal("storage-trouble", (await shop.GetAsync("/api/v1/warnings")).GetProperty("troubles")[0].GetProperty("kind").GetString());
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.ServiceUnavailable);
    }
}
