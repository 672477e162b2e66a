using System.Text.Json;
using System.Text.Json.Nodes;
using CureWatch.Service.Settings;
using Json.Schema;

namespace CureWatch.Service.Tests.Settings;

/// <summary>Every place of a document, replaced by a value of every kind: no reader throws, and none accepts what its schema refuses.</summary>
public sealed class SchemaAgreementTests : IDisposable
{
    private static readonly string[] Values =
        ["null", "true", "0", "-1", "1e20", "0.5", "\"\"", "\"x\"", "\"a\\nb\"", "\"24:00\"", "\"00:00:00\"", "[]", "[1]", "{}", "{\"a\":1}"];

    private readonly Written _written = new();

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Sheet() => AssertAgreement("product", SheetVariants.Whole, (path, faults) => ProductFile.Read(path, faults));

    [Fact]
    public void SheetInFahrenheit() => AssertAgreement("product", SheetVariants.InFahrenheit, (path, faults) => ProductFile.Read(path, faults));

    [Fact]
    public void Shop() => AssertAgreement("shop", ShopVariants.Whole, (path, faults) => ShopFile.Read(path, faults));

    [Fact]
    public void Job()
    {
        _written.File("config/shop.json", ShopVariants.Whole);
        _written.File("config/products/paint-x-r2.json", SheetVariants.Whole);
        Configuration configuration = Configuration.Read(Path.Combine(_written.Folder, "config"), new Faults())!;

        AssertAgreement("job", JobVariants.Whole, (path, faults) => JobFile.Read(path, configuration, faults));
    }

    [Fact]
    public void Service() => AssertAgreement("curewatch", ServiceVariants.Embedded, (path, faults) => ServiceFile.Read(path, [], faults));

    [Fact]
    public void ServiceWithAGateway() =>
        AssertAgreement("curewatch", ServiceVariants.Gateway, (path, faults) => ServiceFile.Read(path, [], faults));

    [Fact]
    public void ServiceWithExternalBroker() =>
        AssertAgreement("curewatch", ServiceVariants.External, (path, faults) => ServiceFile.Read(path, [], faults));

    private void AssertAgreement(string schemaName, string whole, Func<string, Faults, object?> read)
    {
        JsonSchema schema = Shipped.Schema(schemaName);
        foreach (string place in Places(JsonNode.Parse(whole)!, ""))
        {
            foreach (string value in Values)
            {
                string document = Edited.At(whole, place, value);
                var faults = new Faults();
                object? result = read(_written.File("document.json", document), faults);
                bool accepted = schema.Evaluate(JsonElement.Parse(document)).IsValid;

                Assert.Equal(result is null, faults.Count > 0);
                Assert.True(accepted || result is null, $"The reader takes {value} at {place}, which the schema refuses.");
            }
        }
    }

    private static IEnumerable<string> Places(JsonNode? node, string at)
    {
        IEnumerable<(string Key, JsonNode? Value)> children = node switch
        {
            JsonObject item => item.Select(p => (p.Key, p.Value)),
            JsonArray array => array.Select((v, i) => ($"{i}", v)),
            _ => [],
        };
        return children.SelectMany(c => Places(c.Value, $"{at}/{c.Key}").Prepend($"{at}/{c.Key}"));
    }
}
