using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace CureWatch.Service.Mqtt;

/// <summary>A JSON Pointer (RFC 6901), taken apart once so that a message is matched without making a string.</summary>
internal sealed class JsonPointer
{
    private readonly ImmutableArray<Part> _parts;

    /// <param name="text">The pointer; empty for the whole document.</param>
    public JsonPointer(string text) => _parts = text.Length == 0 ? [] : [.. text.Split('/')[1..].Select(Part.Of)];

    /// <summary>How many parts lead from the top of a document to the place.</summary>
    public int Length => _parts.Length;

    /// <summary>The key a part names [UTF-8].</summary>
    public ReadOnlySpan<byte> Key(int part) => _parts[part].Key;

    /// <summary>The place in an array a part names; −1 where it can only be a key.</summary>
    public int Index(int part) => _parts[part].Index;

    private readonly record struct Part(byte[] Key, int Index)
    {
        public static Part Of(string escaped)
        {
            string text = escaped.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);
            bool isIndex = text is "0" || (text.Length > 0 && text[0] is >= '1' and <= '9');
            return new Part(
                Encoding.UTF8.GetBytes(text),
                isIndex && int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int index) ? index : -1);
        }
    }
}
