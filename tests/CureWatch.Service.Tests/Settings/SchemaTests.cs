using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Service.Settings;
using Json.Schema;

namespace CureWatch.Service.Tests.Settings;

/// <summary>The shipped schemas, checked by JsonSchema.Net 8.0.5; the readers' own tests refuse the same variants.</summary>
public class SchemaTests
{
    private static readonly JsonSchema Product = Shipped.Schema("product");
    private static readonly JsonSchema Shop = Shipped.Schema("shop");
    private static readonly JsonSchema Job = Shipped.Schema("job");
    private static readonly JsonSchema Service = Shipped.Schema("curewatch");

    public static TheoryData<string, string?, string> BrokenSheets => SheetVariants.ForBoth;

    public static TheoryData<string, string?, string> BrokenShops => ShopVariants.ForBoth;

    public static TheoryData<string, string?, string> BrokenJobs => JobVariants.ForBoth;

    public static TheoryData<string, string?, string> BrokenServices => ServiceVariants.ForBoth;

    public static TheoryData<string, string?, string> BrokenGateways => ServiceVariants.GatewayForBoth;

    public static TheoryData<string, string?, string> BrokenExternals => ServiceVariants.ExternalForBoth;

    [Theory]
    [InlineData("product")]
    [InlineData("shop")]
    [InlineData("job")]
    [InlineData("curewatch")]
    public void Schema_IsItselfValid(string name)
    {
        JsonElement schema = JsonElement.Parse(File.ReadAllText(Shipped.SchemaFile(name)));

        Assert.Equal(MetaSchemas.Draft202012Id.OriginalString, schema.GetProperty("$schema").GetString());
        Assert.True(MetaSchemas.Draft202012.Evaluate(schema).IsValid);
    }

    [Fact]
    public void DocumentsOfTheReadersTests_AreAccepted()
    {
        Assert.True(Accepts(Product, SheetVariants.Whole));
        Assert.True(Accepts(Product, SheetVariants.Least));
        Assert.True(Accepts(Shop, ShopVariants.Whole));
        Assert.True(Accepts(Shop, ShopVariants.Least));
        Assert.True(Accepts(Job, JobVariants.Whole));
        Assert.True(Accepts(Service, ServiceVariants.Embedded));
        Assert.True(Accepts(Service, ServiceVariants.External));
        Assert.True(Accepts(Service, ServiceVariants.Gateway));
        Assert.True(Accepts(Service, """{"mqtt":{},"data":{},"board":{},"limits":{}}"""));
    }

    [Theory]
    [MemberData(nameof(BrokenSheets))]
    public void BrokenSheet_IsRefused(string changed, string? json, string place) =>
        AssertRefused(Product, SheetVariants.Whole, changed, json, place);

    [Theory]
    [MemberData(nameof(BrokenShops))]
    public void BrokenShop_IsRefused(string changed, string? json, string place) =>
        AssertRefused(Shop, ShopVariants.Whole, changed, json, place);

    [Theory]
    [MemberData(nameof(BrokenJobs))]
    public void BrokenJob_IsRefused(string changed, string? json, string place) =>
        AssertRefused(Job, JobVariants.Whole, changed, json, place);

    [Theory]
    [MemberData(nameof(BrokenServices))]
    public void BrokenService_IsRefused(string changed, string? json, string place) =>
        AssertRefused(Service, ServiceVariants.Embedded, changed, json, place);

    [Theory]
    [MemberData(nameof(BrokenGateways))]
    public void BrokenGateway_IsRefused(string changed, string? json, string place) =>
        AssertRefused(Service, ServiceVariants.Gateway, changed, json, place);

    [Theory]
    [MemberData(nameof(BrokenExternals))]
    public void BrokenExternalBroker_IsRefused(string changed, string? json, string place) =>
        AssertRefused(Service, ServiceVariants.External, changed, json, place);

    [Theory]
    [InlineData("""{"data":"here"}""")]
    [InlineData("""{"mqtt":{"listen":"all"}}""")]
    [InlineData("[]")]
    public void BrokenServiceFile_IsRefused(string text) => Assert.False(Accepts(Service, text));

    [Fact]
    public void Words_InTheSchemas_AreTheProgramsOwn()
    {
        AssertWords<Stage>("product", "stage");
        AssertWords<ProductKind>("product", "kind");
        AssertWords<Carrier>("product", "carrier");
        AssertWords<Equipment>("shop", "equipment");
        AssertWords<Measures>("shop", "measures");
        AssertWords<Material>("shop", "material");
        AssertWords<Place>("shop", "place");
        AssertWords<Material>("job", "material");
        AssertWords<Place>("job", "place");
        AssertWords<Did>("job", "did");
        AssertWords<Found>("job", "found");
        AssertWords<How>("job", "how");
        AssertWords<Listen>("curewatch", "listen");
        AssertWords<MqttRole>("curewatch", "role");
    }

    private static void AssertWords<T>(string schema, string definition)
        where T : struct, Enum
    {
        JsonElement top = JsonElement.Parse(File.ReadAllText(Shipped.SchemaFile(schema)));
        JsonElement words = top.GetProperty("$defs").GetProperty(definition).GetProperty("enum");
        Assert.Equal(Enum.GetValues<T>().Select(WireName<T>.Of), words.EnumerateArray().Select(w => w.GetString()));
    }

    private static void AssertRefused(JsonSchema schema, string whole, string changed, string? json, string place) =>
        Assert.False(
            Accepts(schema, Edited.At(whole, changed, json)),
            $"accepted {changed} = {json ?? "nothing"}, which the reader refuses at {place}");

    private static bool Accepts(JsonSchema schema, string document) => schema.Evaluate(JsonElement.Parse(document)).IsValid;
}
