using CureWatch.Service.Mqtt;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Mqtt;

public class TopicMapTests
{
    private const string Root = "curewatch/v1/ottermoss-works";

    private static readonly TopicMap Map = TopicMap.Of(ShopFile.Read(Path.Combine(Shipped.Folder, "shop.json"), new Faults())!);

    [Theory]
    [InlineData($"{Root}/bay-1/probe/air", "bay-1/air")]
    [InlineData($"{Root}/bay-2/probe/air", "bay-2/air")]
    [InlineData("yard/weather-post", "bay-1/yard")]
    public void Topic_OfAProbe_NamesIt(string topic, string place) =>
        Assert.Equal([place], ((TopicMeaning.Readings)Map.Find(topic)).Probes.Select(p => p.Place));

    [Fact]
    public void Topic_OfATap_NamesItsBay() => Assert.Equal(new TopicMeaning.Tap("bay-2"), Map.Find($"{Root}/bay-2/tap"));

    [Theory]
    [InlineData($"{Root}/bay-1/probe/attic", "bay-1/attic")]
    [InlineData($"{Root}/bay-1/probe/yard", "bay-1/yard")]
    [InlineData($"{Root}/bay-9/probe/air", "bay-9/air")]
    [InlineData($"{Root}/bay-1/probe/AIR", "no such id")]
    [InlineData($"{Root}//probe/", "no such id")]
    [InlineData($"{Root}/bay-1/probe/\u202Egnp", "no such id")]
    public void Topic_OfAProbeNobodySetUp_IsUnknown(string topic, string place) =>
        Assert.Equal(new TopicMeaning.UnknownProbe(place), Map.Find(topic));

    [Theory]
    [InlineData("")]
    [InlineData("curewatch/v1/other/bay-1/probe/air")]
    [InlineData($"{Root}")]
    [InlineData($"{Root}/status")]
    [InlineData($"{Root}/bay-1/climate")]
    [InlineData($"{Root}/bay-1/probe")]
    [InlineData($"{Root}/bay-1/probe/air/raw")]
    [InlineData($"{Root}/bay-9/tap")]
    [InlineData($"{Root}/jobs/grey-estate/windows")]
    [InlineData("$SYS/broker/uptime")]
    public void Topic_OfAnythingElse_IsForeign(string topic) => Assert.IsType<TopicMeaning.Foreign>(Map.Find(topic));

    [Fact]
    public void Topic_SharedByProbes_NamesAllOfThem()
    {
        using var written = new Written();
        string shop = written.File("shop.json", """
            {"shop":"s","timeZone":"UTC","bays":[{"bay":"b","probes":[
              {"probe":"one","measures":"air","topic":"gateway","fields":{"temperature":"/1/t","humidity":"/1/h"}},
              {"probe":"two","measures":"panel","topic":"gateway","fields":{"temperature":"/2/t"}}]}]}
            """);

        TopicMap map = TopicMap.Of(ShopFile.Read(shop, new Faults())!);

        Assert.Equal(["b/one", "b/two"], ((TopicMeaning.Readings)map.Find("gateway")).Probes.Select(p => p.Place));
        Assert.Equal(["gateway"], map.OwnTopics);
    }

    [Fact]
    public void Topic_BeforeAShopIsSetUp_IsForeign() => Assert.IsType<TopicMeaning.Foreign>(TopicMap.Blank.Find($"{Root}/bay-1/probe/air"));
}
