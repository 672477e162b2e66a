using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Mqtt;

public class ReadingDecoderTests
{
    private static readonly ProbeFields Mapped = new("/main/t", "/main/h", "/ts");

    [Theory]
    [InlineData("""{"temperatureC":20,"humidityPct":50}""")]
    [InlineData(""" { "humidityPct" : 5.0e1 , "temperatureC" : 20.0 , "battery" : {"v":[3.1,{"deep":null}]} } """)]
    [InlineData("""{"temperature\u0043":20,"humidityPct":50,"name":"Bühne 1","name":"again"}""")]
    [InlineData("{\"temperatureC\":20,\"humidityPct\":50}\r\n")]
    public void AirProbe_OwnKeys_AreUnderstood(string payload) =>
        Assert.Equal(new Entry.Reading("bay-1", "p", null, 20, 50, null), Decoding.Air.Decode(payload).Reading);

    [Theory]
    [InlineData("0", 0L)]
    [InlineData("41", 41L)]
    [InlineData("4.1e1", 41L)]
    [InlineData("9007199254740991", 9007199254740991L)]
    public void Sequence_IsTakenDown(string number, long expected)
    {
        Assert.Equal(expected, Decoding.Air.Decode($$"""{"temperatureC":20,"humidityPct":50,"sequence":{{number}}}""").Reading!.Sequence);
        ReadingDecoder mapped = Decoding.Of(Measures.Panel, new ProbeFields("/t", null, null, "/n"));
        Assert.Equal(expected, mapped.Decode($$"""{"t":20,"n":"{{number}}"}""").Reading!.Sequence);
    }

    [Theory]
    [InlineData("-1")]
    [InlineData("0.5")]
    [InlineData("9007199254740992")]
    [InlineData("\"41\"")]
    [InlineData("null")]
    public void Sequence_ThatIsNoWholeNumber_IsMalformed(string number) =>
        Assert.Equal(new Decoded(null, Disbelief.Malformed, SaysNothing: false), Decoding.Air.Decode($$"""{"temperatureC":20,"humidityPct":50,"sequence":{{number}}}"""));

    [Fact]
    public void OwnKeys_WithTime_AreTakenAtThatTime() => Assert.Equal(
        new DateTimeOffset(2026, 3, 2, 7, 0, 0, 500, TimeSpan.Zero),
        Decoding.Air.Decode("""{"at":"2026-03-02T08:00:00.5+01:00","temperatureC":20,"humidityPct":50}""", isRetained: true).Reading!.MeasuredAt);

    [Theory]
    [InlineData("""{"temperatureC":8.25}""", 8.25)]
    [InlineData("""{"temperatureC":8.25,"humidityPct":"wet"}""", 8.25)]
    [InlineData("8.25", 8.25)]
    [InlineData("-12", -12)]
    [InlineData(" 2e1\n", 20)]
    public void PanelProbe_TellsAPanel(string payload, double panelC) =>
        Assert.Equal(new Entry.Reading("bay-1", "p", null, null, null, panelC), Decoding.Panel.Decode(payload).Reading);

    [Theory]
    [InlineData("""{"main":{"t":"20.5","h":50},"ts":"2026-03-02T08:00:00Z"}""", 20.5, 50)]
    [InlineData("""{"ts":1772438400,"main":{"x":{"t":1},"h":"5e1","t":-0.5}}""", -0.5, 50)]
    [InlineData("""{"ts":1772438400000,"main":{"h":50,"t":20}}""", 20, 50)]
    [InlineData("""{"ts":"1772438400","main":{"h":50,"t":20}}""", 20, 50)]
    [InlineData("""{"ts":"1772438400000","main":{"h":50,"t":20}}""", 20, 50)]
    [InlineData("""{"ts":1772438400.0004,"main":{"h":50,"t":20}}""", 20, 50)]
    public void Fields_AreFoundWhereTheyStand(string payload, double airC, double humidityPct) => Assert.Equal(
        new Entry.Reading("bay-1", "p", new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero), airC, humidityPct, null),
        Decoding.Of(Measures.Outdoor, Mapped).Decode(payload).Reading);

    [Theory]
    [InlineData("", "7")]
    [InlineData("/0", "[7,8]")]
    [InlineData("/1/t", """[{"t":8},{"t":7}]""")]
    [InlineData("/10", "[0,1,2,3,4,5,6,8,8,9,7]")]
    [InlineData("/a~1b", """{"a/b":7,"a~1b":8}""")]
    [InlineData("/m~0n", """{"m~n":7}""")]
    [InlineData("/~01", """{"~1":7,"/":8}""")]
    [InlineData("/", """{"":7}""")]
    [InlineData("/0", """{"0":7}""")]
    [InlineData("/°C", """{"\u00b0C":7}""")]
    public void Pointer_NamesOnePlace(string place, string payload) =>
        Assert.Equal(7, Decoding.Of(Measures.Panel, new ProbeFields(place, null, null)).Decode(payload).Reading?.PanelC);

    [Theory]
    [InlineData("/01", "[7,7]")]
    [InlineData("/-", "[7]")]
    [InlineData("/1", "[7]")]
    [InlineData("/99999999999999999999", "[7]")]
    [InlineData("/a", """{"A":7}""")]
    [InlineData("/a/b", """{"a":7}""")]
    public void Pointer_ToNothing_FindsNothing(string place, string payload)
    {
        Decoded decoded = Decoding.Of(Measures.Panel, new ProbeFields(place, null, null)).Decode(payload);
        Assert.Equal(new Decoded(null, Disbelief.Malformed, SaysNothing: true), decoded);
    }

    [Fact]
    public void Fahrenheit_CountsForFieldsAndBareNumbersOnly()
    {
        Assert.Equal(20, Decoding.Of(Measures.Panel, unit: TemperatureUnit.Fahrenheit).Decode("68").Reading!.PanelC!.Value, 1e-12);
        Assert.Equal(20, Decoding.Of(Measures.Air, Mapped, TemperatureUnit.Fahrenheit).Decode("""{"main":{"t":68,"h":50}}""").Reading!.AirC!.Value, 1e-12);
        Assert.Equal(68, Decoding.Of(Measures.Air, unit: TemperatureUnit.Fahrenheit).Decode("""{"temperatureC":68,"humidityPct":50}""").Reading!.AirC);
    }

    [Theory]
    [InlineData("""{"temperatureC":20,"humidityPct":50}""", true)]
    [InlineData("""{"at":"2026-03-02T08:00:00Z","temperatureC":20,"humidityPct":50}""", false)]
    public void Retained_WithoutTime_IsRefused(string payload, bool isRefused)
    {
        Decoded decoded = Decoding.Air.Decode(payload, isRetained: true);
        Assert.Equal(isRefused, decoded is { Reading: null, Refusal: Disbelief.RetainedWithoutTime });
    }
}
