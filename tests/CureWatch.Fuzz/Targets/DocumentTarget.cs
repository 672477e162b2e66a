using System.Text;
using System.Text.Json;
using CureWatch.Service.Settings;
using Json.Schema;

namespace CureWatch.Fuzz.Targets;

/// <summary>A JSON document that people write, of which a schema ships beside the program.</summary>
internal abstract class DocumentTarget<T>(string schemaName) : FuzzTarget
    where T : class
{
    private readonly Lazy<JsonSchema> _schema = new(() => Shipped.Schema(schemaName));

    public override string Name => schemaName;

    protected override void TryOn(byte[] input)
    {
        var faults = new Faults();
        T? read = Read(input, faults);
        FaultPromise.Check(read is not null, faults.All);
        if (read is not null)
        {
            BrokenPromiseException.Unless(_schema.Value.Evaluate(Document(input)).IsValid, "its schema refuses what the reader takes");
            Check(read, input);
        }
    }

    protected abstract T? Read(byte[] input, Faults faults);

    /// <summary>Holds what was read to the ranges that are documented, and works with it.</summary>
    protected abstract void Check(T read, byte[] input);

    /// <summary>The document of an input, without a byte order mark.</summary>
    protected virtual JsonElement Document(byte[] input) =>
        JsonElement.Parse(input.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? input.AsSpan(Encoding.UTF8.Preamble.Length) : input);
}
