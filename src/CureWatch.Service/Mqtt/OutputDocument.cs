using System.Buffers;
using System.Text.Json;

namespace CureWatch.Service.Mqtt;

/// <summary>A document others may read, as it is kept on its topic.</summary>
internal sealed class OutputDocument
{
    private readonly int _body;

    private OutputDocument(byte[] bytes, int body) => (Bytes, _body) = (bytes, body);

    /// <summary>A document of somebody else, or of an earlier run: like none of ours.</summary>
    public static OutputDocument Unknown { get; } = new([], 0);

    public byte[] Bytes { get; }

    public static OutputDocument Of(ReadOnlySpan<byte> text) => new(text.ToArray(), 0);

    /// <summary>Writes an object.</summary>
    /// <param name="head">What may differ without the document being another: to say only that time has passed is no news.</param>
    /// <param name="body">What tells it apart.</param>
    public static OutputDocument Of(Action<Utf8JsonWriter> head, Action<Utf8JsonWriter> body)
    {
        var bytes = new ArrayBufferWriter<byte>();
        using var json = new Utf8JsonWriter(bytes);
        json.WriteStartObject();
        head(json);
        json.Flush();
        int start = bytes.WrittenCount;
        body(json);
        json.WriteEndObject();
        json.Flush();
        return new OutputDocument(bytes.WrittenSpan.ToArray(), start);
    }

    /// <summary>Whether it says the same as another.</summary>
    public bool SaysTheSame(OutputDocument other) => Bytes.Length > 0 && Bytes.AsSpan(_body).SequenceEqual(other.Bytes.AsSpan(other._body));
}
