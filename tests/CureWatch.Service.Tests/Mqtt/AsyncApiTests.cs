using System.Text;
using System.Text.Json;
using CureWatch.Curing;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>The document says what the program does.</summary>
public class AsyncApiTests
{
    [Fact]
    public void Document_IsOfVersion3_AndAllItRefersToIsThere()
    {
        Assert.Equal("3.0.0", AsyncApi.Document.GetProperty("asyncapi").GetString());
        Assert.All(AsyncApi.References(), r => Assert.True(AsyncApi.Finds(r), r));
        Assert.Equal(
            AsyncApi.Channels.Select(c => $"#/channels/{c.Name}"),
            AsyncApi.Document.GetProperty("operations").EnumerateObject().Select(o => o.Value.GetProperty("channel").GetProperty("$ref").GetString()));
    }

    [Fact]
    public void Address_OfEveryChannel_IsTheTopicOfTheProgram()
    {
        var topics = new Topics("{shop}");
        Assert.Equal(
            [
                topics.Probe("{bay}", "{probe}"), topics.Tap("{bay}"), topics.Status, topics.Climate("{bay}"),
                topics.Warning("{bay}", 0).Replace("/0", "/{number}", StringComparison.Ordinal), topics.Trouble("{kind}"),
                topics.Windows("{job}"), topics.Handover("{job}"), topics.Start("{job}"), topics.Plan("{bay}"), topics.Promise("{job}"), topics.Promises,
                topics.Tonight("{bay}"), topics.Morning("{bay}"), topics.ShopTonight, topics.ShopMorning,
            ],
            AsyncApi.Channels.Select(c => c.Value.GetProperty("address").GetString()));
    }

    [Fact]
    public void Parameter_InEveryAddress_IsExplained() => Assert.All(AsyncApi.Channels, c => Assert.Equal(
        c.Value.GetProperty("address").GetString()!.Split('/').Where(p => p.StartsWith('{')).Select(p => p.Trim('{', '}')),
        c.Value.GetProperty("parameters").EnumerateObject().Select(p => p.Name)));

    [Fact]
    public void Example_OfEveryMessage_FitsItsSchema() => Assert.All(
        AsyncApi.Messages.SelectMany(m => m.Value.GetProperty("examples").EnumerateArray().Select(e => (m.Name, Payload: e.GetProperty("payload")))),
        e => Assert.True(AsyncApi.Accepts(e.Name, e.Payload), $"{e.Name}: {e.Payload}"));

    [Fact]
    public void Example_WithoutARequiredKey_DoesNotFit()
    {
        Assert.False(AsyncApi.Accepts("status", JsonElement.Parse("\"away\"")));
        Assert.All(["reading", "tap", "climate", "warning", "trouble", "windows", "handover", "start", "plan", "promise", "promises", "tonight", "morning", "tonightOfShop", "morningOfShop"], message =>
        {
            string example = AsyncApi.Messages.Single(m => m.Name == message).Value.GetProperty("examples")[0].GetProperty("payload").GetRawText();
            string key = AsyncApi.SchemaOf(message).GetProperty("required")[0].GetString()!;
            Assert.False(AsyncApi.Accepts(message, JsonElement.Parse(Settings.Edited.At(example, $"/{key}", null))), $"{message} without {key}");
        });
    }

    [Theory]
    [InlineData("reading", "/bay-1/probe/air")]
    [InlineData("panelTemperature", "/bay-1/probe/bonnet")]
    public void Example_OfAReading_IsUnderstood(string message, string topic)
    {
        var meaning = (TopicMeaning.Readings)TopicMap.Of(Registers.Shop).Find(Registers.Root + topic);
        JsonElement examples = AsyncApi.Messages.Single(m => m.Name == message).Value.GetProperty("examples");
        Assert.All(examples.EnumerateArray(), e => Assert.NotNull(
            meaning.Probes[0].Decode(Encoding.UTF8.GetBytes(e.GetProperty("payload").GetRawText()), isRetained: false).Reading));
    }

    [Fact]
    public void Example_OfATap_IsUnderstood()
    {
        JsonElement example = AsyncApi.Messages.Single(m => m.Name == "tap").Value.GetProperty("examples")[0].GetProperty("payload");
        var faults = new Faults();
        JsonCursor top = JsonFile.Parse("tap", Encoding.UTF8.GetBytes(example.GetRawText()), faults)!;
        Assert.Equal(Did.Levelled, TapOfJob.ReadAlone(top, new TappedSurfaces(["bonnet"], []), ["bay-1"]).Tap!.Did);
        Assert.Equal(0, faults.Count);
    }

    [Fact]
    public void Example_OfAWarning_IsOneOfTheKinds()
    {
        JsonElement example = AsyncApi.Messages.Single(m => m.Name == "warning").Value.GetProperty("examples")[0].GetProperty("payload");
        AlarmRule rule = AlarmRule.Of(WireName<WarningKind>.Find(example.GetProperty("kind").GetString()!)!.Value);
        Assert.Equal((rule.Priority, rule.Cause.ToString(), rule.Consequence.ToString(), rule.Action.ToString()), (
            example.GetProperty("priority").GetInt32(),
            example.GetProperty("cause").GetString(),
            example.GetProperty("consequence").GetString(),
            example.GetProperty("action").GetString()));
    }

    [Fact]
    public void Example_OfATrouble_IsAsItIsTold()
    {
        JsonElement example = AsyncApi.Messages.Single(m => m.Name == "trouble").Value.GetProperty("examples")[0].GetProperty("payload");
        var trouble = new Trouble(WarningKind.StorageTrouble, "No space left on device", example.GetProperty("raisedAt").GetDateTimeOffset());
        OutputDocument document = OutputDocument.Of(_ => { }, json => TroubleJson.Write(json, trouble));
        Assert.True(JsonElement.DeepEquals(example, JsonElement.Parse(Encoding.UTF8.GetString(document.Bytes))));
    }

    [Fact]
    public async Task Everything_ThatIsPublished_IsAsTheDocumentSays()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.ReadAsync(20, 50);
        await rig.StartJobAsync();
        await rig.TapAsync("applied");
        await rig.PassAsync(4);
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        rig.Of<Troubles>().Raise(WarningKind.StorageTrouble, "the disk is full");
        string[] outputs = ["status", "climate", "warning", "trouble", "windows", "handover", "start", "promise", "promises", "tonight", "morning", "tonightOfShop", "morningOfShop"];
        await Eventually.TrueAsync(() => watcher.Seen.Select(s => s.Topic).Distinct().Count() >= outputs.Length, "one of each");

        Assert.All(outputs, message =>
        {
            string[] address = AsyncApi.Address(message).Split('/');
            string payload = watcher.Seen.First(s => Matches(s.Topic.Split('/'), address)).Payload;
            JsonElement document = JsonElement.Parse(message == "status" ? $"\"{payload}\"" : payload);
            Assert.True(AsyncApi.Accepts(message, document), $"{message}: {payload}");
            if (document.ValueKind == JsonValueKind.Object)
            {
                Assert.Equal(
                    AsyncApi.KeysOf(message),
                    document.EnumerateObject().Select(p => p.Name));
            }
        });
    }

    private static bool Matches(string[] topic, string[] address) =>
        topic.Length == address.Length && topic.Zip(address).All(p => p.Second.StartsWith('{') || p.First == p.Second);
}
