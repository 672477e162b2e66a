using System.Diagnostics;
using System.Net;
using System.Net.ServerSentEvents;
using System.Text.Json;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Api;

public class LiveTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task Listener_IsToldEverythingAtFirst()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await using Listener listener = await Listener.OpenAsync(shop);
        string[] kinds = [.. (await listener.NextAsync(7)).Select(i => i.EventType)];
        Assert.Equal(["clock", "troubles", "clock", "climate", "climate", "windows", "handover"], kinds);
    }

    [Fact]
    public async Task Listener_IsToldWhatChanged()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await using Listener listener = await Listener.OpenAsync(shop);
        await listener.UntilAsync("climate", d => d.GetProperty("bay").GetString() == "bay-2");
        await shop.PassAsync(1);
        JsonElement climate = await listener.UntilAsync("climate", d => d.GetProperty("climate").ValueKind == JsonValueKind.Object);
        Assert.Equal(20, climate.GetProperty("climate").GetProperty("airC").GetDouble());
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await listener.UntilAsync("windows", d => d.GetProperty("job").GetString() == "grey-estate");
        await listener.UntilAsync("handover", d => d.GetProperty("holds").GetArrayLength() == 3);
    }

    [Fact]
    public async Task Listener_IsToldAWarning_AndThatItIsOver()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await using Listener listener = await Listener.OpenAsync(shop);
        await listener.UntilAsync("climate", d => d.GetProperty("bay").GetString() == "bay-2");
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:00:00Z","surface":"bonnet","did":"applied"}""", HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:00:00Z","surface":"bonnet","did":"wetted"}""", HttpStatusCode.Created);
        JsonElement raised = await listener.UntilAsync("warning", d => d.GetProperty("kind").GetString() == "wetted");
        Assert.Equal(JsonValueKind.Null, raised.GetProperty("clearedAt").ValueKind);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:00:00Z","surface":"bonnet","did":"dried"}""", HttpStatusCode.Created);
        JsonElement over = await listener.UntilAsync("warning", d => d.GetProperty("clearedAt").ValueKind == JsonValueKind.String);
        Assert.Equal(raised.GetProperty("number").GetInt32(), over.GetProperty("number").GetInt32());
    }

    [Fact]
    public async Task Listener_IsToldThatACarComesNoMore()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        string planned = Asked.Car.Replace("\"bay\":\"bay-1\"", "\"bay\":\"bay-1\",\"arrivesAt\":\"2026-05-04T12:00:00Z\"", StringComparison.Ordinal);
        await using Listener listener = await Listener.OpenAsync(shop);
        await listener.UntilAsync("climate", d => d.GetProperty("bay").GetString() == "bay-2"); // the shop as it was
        await shop.PostAsync("/api/v1/jobs", planned, HttpStatusCode.Created);
        await listener.UntilAsync("handover", d => d.GetProperty("job").GetString() == "grey-estate");
        using HttpResponseMessage cancelled = await shop.SendAsync(HttpMethod.Delete, "/api/v1/jobs/grey-estate/visit", Asked.Json("{}"));
        Assert.True(cancelled.IsSuccessStatusCode);
        await listener.UntilAsync("cancelled", d => d.GetProperty("job").GetString() == "grey-estate");
    }

    [Fact]
    public async Task Listener_IsToldATrouble_AndThatItIsOver()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await using Listener listener = await Listener.OpenAsync(shop);
        await listener.UntilAsync("troubles", d => d.GetProperty("troubles").GetArrayLength() == 0);
        shop.Troubles.Raise(WarningKind.BrokerTrouble, "refused");
        JsonElement told = await listener.UntilAsync("troubles", d => d.GetProperty("troubles").GetArrayLength() == 1);
        Assert.Equal("The broker is away: refused.", told.GetProperty("troubles")[0].GetProperty("cause").GetString());
        shop.Troubles.Clear(WarningKind.BrokerTrouble);
        await listener.UntilAsync("troubles", d => d.GetProperty("troubles").GetArrayLength() == 0);
    }

    [Fact]
    public async Task Listener_HearsTheTime_AlsoWhileNothingHappens()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await using Listener listener = await Listener.OpenAsync(shop);
        shop.Clock.Advance(TimeSpan.FromSeconds(7));
        await listener.UntilAsync("clock", d => d.GetProperty("at").GetString() == "2026-05-04T08:00:07Z");
    }

    [Fact]
    public async Task Stop_CutsTheStream_AtOnce()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await using Listener listener = await Listener.OpenAsync(shop);
        await listener.NextAsync(1);
        long from = Stopwatch.GetTimestamp();
        await shop.StopAsync();
        Assert.True(Stopwatch.GetElapsedTime(from) < Patience, "the stream held the stop up");
        await listener.AssertEndsAsync();
    }

    /// <summary>Somebody who listens to a shop.</summary>
    private sealed class Listener(HttpResponseMessage answer, Stream stream, CancellationTokenSource patience) : IAsyncDisposable
    {
        private readonly IAsyncEnumerator<SseItem<string>> _items = SseParser.Create(stream).EnumerateAsync(patience.Token).GetAsyncEnumerator(patience.Token);

        public static async Task<Listener> OpenAsync(ServedShop shop)
        {
            HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Get, "/api/v1/live");
            Assert.Equal("text/event-stream", answer.Content.Headers.ContentType?.MediaType);
            var patience = new CancellationTokenSource(Patience, TimeProvider.System);
            return new Listener(answer, await answer.Content.ReadAsStreamAsync(patience.Token), patience);
        }

        public async Task<IReadOnlyList<SseItem<string>>> NextAsync(int count)
        {
            var items = new List<SseItem<string>>();
            while (items.Count < count && await _items.MoveNextAsync())
            {
                items.Add(_items.Current);
            }

            return items;
        }

        public async Task<JsonElement> UntilAsync(string kind, Func<JsonElement, bool> isIt)
        {
            while (await _items.MoveNextAsync())
            {
                if (_items.Current.EventType == kind && JsonElement.Parse(_items.Current.Data) is var document && isIt(document))
                {
                    return document;
                }
            }

            throw new InvalidOperationException("The stream ended.");
        }

        public async Task AssertEndsAsync()
        {
            while (await _items.MoveNextAsync())
            {
            }
        }

        public async ValueTask DisposeAsync()
        {
            await _items.DisposeAsync();
            answer.Dispose();
            patience.Dispose();
        }
    }
}
