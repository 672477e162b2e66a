using System.Text.Json;
using System.Text.Json.Nodes;

namespace CureWatch.Service.People;

/// <summary>Puts under what somebody tells who they are signed in as, whatever the document says itself.</summary>
internal static class Signature
{
    private const string By = "by";

    /// <returns>The document with the visitor's name; as it was where nobody signs in, or where it is none that could be taken down.</returns>
    public static ReadOnlyMemory<byte> On(ReadOnlyMemory<byte> utf8, HttpContext context)
    {
        if (Visitor.Of(context).Name is not { } name)
        {
            return utf8;
        }

        try
        {
            if ((utf8.IsEmpty ? new JsonObject() : JsonNode.Parse(utf8.Span)) is not JsonObject document)
            {
                return utf8;
            }

            document[By] = name;
            return JsonSerializer.SerializeToUtf8Bytes(document);
        }
        catch (Exception e) when (e is JsonException or ArgumentException)
        {
            return utf8; // it is refused by whoever reads it: no JSON, or a key twice
        }
    }
}
