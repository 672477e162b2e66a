using System.Buffers;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Text;

namespace CureWatch.Service.Snapshots;

/// <summary>Takes a state down as bytes. An object that is reached on several ways is written once.</summary>
internal sealed class StateWriter
{
    private readonly ArrayBufferWriter<byte> _bytes = new();
    private readonly Dictionary<object, int> _known = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, int> _texts = new(StringComparer.Ordinal);

    public ReadOnlySpan<byte> Written => _bytes.WrittenSpan;

    public void Raw<T>(T value) => Raw(MemoryMarshal.CreateReadOnlySpan(ref value, 1));

    /// <summary>Values without references are written as they lie in memory.</summary>
    public void Raw<T>(ReadOnlySpan<T> values)
    {
        int length = values.Length * Unsafe.SizeOf<T>();
        Span<byte> to = _bytes.GetSpan(length);
        MemoryMarshal.CreateReadOnlySpan(ref Unsafe.As<T, byte>(ref MemoryMarshal.GetReference(values)), length).CopyTo(to);
        _bytes.Advance(length);
    }

    /// <summary>Writes the number of a text, and the text where it is new.</summary>
    public void Text(string text)
    {
        if (IsKnown(_texts, text))
        {
            return;
        }

        byte[] utf8 = Encoding.UTF8.GetBytes(text);
        Raw(utf8.Length);
        Raw<byte>(utf8);
    }

    /// <summary>Writes the number of an object.</summary>
    /// <returns>True where it was written before.</returns>
    public bool IsKnown(object value) => IsKnown(_known, value);

    private bool IsKnown<TKey>(Dictionary<TKey, int> known, TKey key)
        where TKey : notnull
    {
        bool isKnown = known.TryGetValue(key, out int number);
        Raw(isKnown ? number : known.Count);
        if (!isKnown)
        {
            known.Add(key, known.Count);
        }

        return isKnown;
    }
}
