using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Text;

namespace CureWatch.Service.Snapshots;

/// <summary>Reads a state back, in the order in which it was written.</summary>
internal sealed class StateReader(ReadOnlyMemory<byte> bytes)
{
    private readonly List<object> _known = [];
    private readonly List<string> _texts = [];
    private int _read;

    public bool IsAtEnd => _read == bytes.Length;

    public T Raw<T>()
    {
        T value = default!;
        Raw(MemoryMarshal.CreateSpan(ref value, 1));
        return value;
    }

    public void Raw<T>(Span<T> values)
    {
        int length = values.Length * Unsafe.SizeOf<T>();
        Take(length).CopyTo(MemoryMarshal.CreateSpan(ref Unsafe.As<T, byte>(ref MemoryMarshal.GetReference(values)), length));
    }

    /// <summary>How many things follow; no more than there are bytes for.</summary>
    public int Count(int least = 0) => Raw<int>() is var count && count >= least && count <= bytes.Length - _read ? count : throw Broken();

    public string Text()
    {
        int number = Raw<int>();
        if (number == _texts.Count)
        {
            _texts.Add(Encoding.UTF8.GetString(Take(Count())));
        }

        return number >= 0 && number < _texts.Count ? _texts[number] : throw Broken();
    }

    /// <summary>Reads the number of an object.</summary>
    /// <returns>The object, where it was read before; null where it follows now.</returns>
    public object? Known() => Raw<int>() is var number && number >= 0 && number < _known.Count ? _known[number]
        : number == _known.Count ? null
        : throw Broken();

    /// <summary>Remembers an object by the next number: before its content is read, so that the numbers are those of the writer.</summary>
    /// <returns>Its number.</returns>
    public int Remember(object value)
    {
        _known.Add(value);
        return _known.Count - 1;
    }

    /// <summary>Replaces an object that could only be made after its content was read.</summary>
    public void Remember(int number, object value) => _known[number] = value;

    public static InvalidDataException Broken() => new("It is not what was written.");

    private ReadOnlySpan<byte> Take(int length)
    {
        if (length > bytes.Length - _read)
        {
            throw Broken();
        }

        _read += length;
        return bytes.Span.Slice(_read - length, length);
    }
}
