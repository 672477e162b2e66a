using CsCheck;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Whatever comes, the decoder answers; it never throws.</summary>
public class HostilePayloadTests
{
    private const int Cases = 20_000;

    private static readonly ReadingDecoder Mapped =
        Decoding.Of(Measures.Air, new ProbeFields("/a/0/t", "/a/1", "/ts"), TemperatureUnit.Fahrenheit);

    private static readonly string[] Scraps =
    [
        "{", "}", "[", "]", ",", ":", "\"", "\\u", "\\ud800", "temperatureC", "\"temperatureC\"", "\"humidityPct\"", "\"at\"", "\"a\"", "\"t\"",
        "\"ts\"", "20", "1e400", "-", ".", "null", "true", " ", "\"2026-03-02T08:00:00Z\"", "é", "\n", "\"x", "/*",
    ];

    private static readonly ReadingDecoder[] Decoders = [Decoding.Air, Decoding.Panel, Mapped];

    public static TheoryData<string> Unusable { get; } =
    [
        "", " ", "\0", "null", "true", "{", "}", "[]", "{}", "\"20\"", "20,5", "20.5.1", "+20", ".5", "0x14", "1e400", "-1e999", "NaN", "Infinity", "-Infinity",
        "∞", "-", "--5", "5 6", "20 °C", "٢٠", "２０",
        """{"temperatureC":NaN,"humidityPct":50}""",
        """{"temperatureC":Infinity,"humidityPct":50}""",
        """{"temperatureC":"NaN","humidityPct":50}""",
        """{"temperatureC":1e400,"humidityPct":50}""",
        """{"temperatureC":-1e400,"humidityPct":50}""",
        """{"temperatureC":20,5,"humidityPct":50}""",
        """{"temperatureC":"20,5","humidityPct":50}""",
        """{"temperatureC":"20.5","humidityPct":50}""",
        """{"temperatureC":null,"humidityPct":50}""",
        """{"temperatureC":true,"humidityPct":50}""",
        """{"temperatureC":[20],"humidityPct":50}""",
        """{"temperatureC":{"value":20},"humidityPct":50}""",
        """{"temperatureC":20,"temperatureC":21,"humidityPct":50}""",
        """{"temperatureC":20,"humidityPct":50,"temperature\u0043":20}""",
        """{"temperatureC":20,"humidityPct":50} x""",
        """{"temperatureC":20,"humidityPct":50}{}""",
        """{"temperatureC":20,"humidityPct":50,}""",
        """{"temperatureC":20 /* warm */,"humidityPct":50}""",
        """{'temperatureC':20,'humidityPct':50}""",
        """{temperatureC:20,humidityPct:50}""",
        """{"TEMPERATUREC":20,"HUMIDITYPCT":50}""",
        """{"temperatureC":020,"humidityPct":50}""",
        """{"at":null,"temperatureC":20,"humidityPct":50}""",
        """{"at":1772438400,"temperatureC":20,"humidityPct":50}""",
        """{"at":"1772438400","temperatureC":20,"humidityPct":50}""",
        """{"at":"yesterday","temperatureC":20,"humidityPct":50}""",
        """{"at":"2026-03-02T08:00:00","temperatureC":20,"humidityPct":50}""",
        """{"at":"2026-02-30T08:00:00Z","temperatureC":20,"humidityPct":50}""",
        """{"at":"9999-12-31T23:59:59-14:00","temperatureC":20,"humidityPct":50}""",
        """{"at":"\ud800","temperatureC":20,"humidityPct":50}""",
        """{"at":{},"temperatureC":20,"humidityPct":50}""",
        """{"temperatureC":20,"humidityPct":50,"\ud800":1}""",
        "\uFEFF{\"temperatureC\":20,\"humidityPct\":50}",
    ];

    [Theory]
    [MemberData(nameof(Unusable))]
    public void Payload_ThatCannotBeUsed_IsMalformed(string payload) =>
        Assert.All(Decoders, d => Assert.True(d.Decode(payload) is { Reading: null, Refusal: Disbelief.Malformed }));

    [Fact]
    public void Payload_TooDeep_IsMalformed() => Assert.Null(Decoding.Air.Decode(
        $$"""{"temperatureC":20,"humidityPct":50,"deep":{{new string('[', 100_000)}}{{new string(']', 100_000)}}}""").Reading);

    [Fact]
    public void Payload_OfDigitsWithoutEnd_IsMalformed() =>
        Assert.Null(Decoding.Panel.Decode(new string('9', 100_000)).Reading);

    [Theory]
    [InlineData(new byte[] { 0xFF })]
    [InlineData(new byte[] { (byte)'{', (byte)'"', 0xC3, (byte)'"', (byte)':', (byte)'1', (byte)'}' })]
    [InlineData(new byte[] { 0xED, 0xA0, 0x80 })]
    public void Payload_OfInvalidUtf8_IsMalformed(byte[] payload) => Assert.All(Decoders, d => Assert.Null(d.Decode(payload, isRetained: false).Reading));

    [Theory]
    [InlineData("""{"a":[{"t":"20,5"},50]}""")]
    [InlineData("""{"a":[{"t":"1e400"},50]}""")]
    [InlineData("""{"a":[{"t":" 20"},50]}""")]
    [InlineData("""{"a":[{"t":"1 000"},50]}""")]
    [InlineData("""{"a":[{"t":20},50],"a":[]}""")]
    [InlineData("""{"a":[{"t":20},50],"ts":"1772438400 s"}""")]
    [InlineData("""{"a":[{"t":20},50],"ts":-1}""")]
    [InlineData("""{"a":[{"t":20},50],"ts":1e300}""")]
    [InlineData("""{"a":[{"t":20},50],"ts":false}""")]
    public void Fields_ThatHoldNoPlainValue_AreMalformed(string payload) => Assert.Null(Mapped.Decode(payload).Reading);

    [Fact]
    public void Decoder_OfAnyBytes_Answers() => Gen.Byte.Array[0, 200].Sample(
        payload => Assert.All(Decoders, d => d.Decode(payload, isRetained: false)), iter: Cases);

    [Fact]
    public void Decoder_OfAlmostJson_Answers() => Gen.Int[0, Scraps.Length - 1].Array[0, 24].Sample(
        scraps => Assert.All(Decoders, d => d.Decode(string.Concat(scraps.Select(s => Scraps[s])))), iter: Cases);

    [Fact]
    public void Decoder_OfAnyFiniteNumber_GivesItUnchanged() => Gen.Double.Where(double.IsFinite).Sample(
        number => Decoding.Panel.Decode($"{number:R}").Reading?.PanelC == number, iter: Cases);

    [Theory]
    [InlineData(1e308, 1e308, "2026-03-02T08:00:00Z")]
    [InlineData(-1e308, -1e308, "1900-01-01T00:00:00Z")]
    [InlineData(5e-324, 5e-324, "2199-12-31T23:59:59Z")]
    [InlineData(-300, 0, "2026-03-02T07:59:59Z")]
    public void Absurdity_ThatIsFinite_IsCountedByTheShop(double airC, double humidityPct, string at)
    {
        ShopPlan plan = ShopFile.Read(Path.Combine(Settings.Shipped.Folder, "shop.json"), new Faults())!.Plan;
        var now = new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
        var reading = Decoding.Air.Decode($$"""{"at":"{{at}}","temperatureC":{{airC:R}},"humidityPct":{{humidityPct:R}}}""").Reading!;
        var raw = new RawReading("bay-1", "air", reading.MeasuredAt!.Value, now, reading.AirC, reading.HumidityPct, reading.PanelC);

        Shop shop = ShopFold.Take(Shop.Opening(plan, [], now), new Message.ReadingCame(raw)).Shop;

        Assert.Equal((0, 1), (shop.Tally.Accepted, shop.Tally.Rejected.Values.Sum()));
    }
}
