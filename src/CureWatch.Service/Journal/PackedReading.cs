using System.Buffers;
using System.Buffers.Binary;
using System.Text;

namespace CureWatch.Service.Journal;

/// <summary>
/// A reading as a payload, little-endian: [what is there: 1][bay: 1 + n][probe: 1 + n], then 8 bytes each for what is there of measured at,
/// air, humidity, panel. Version 2, of a reading that its sensor numbered, ends with the number in 8 bytes.
/// </summary>
internal static class PackedReading
{
    public const byte NumberedVersion = 2;

    private const int MostValueBytes = 5 * sizeof(long);

    [Flags]
    private enum Has : byte
    {
        Nothing = 0,
        MeasuredAt = 1,
        Air = 2,
        Humidity = 4,
        Panel = 8,
    }

    public static void Write(Entry.Reading reading, IBufferWriter<byte> payload)
    {
        Span<byte> bytes = payload.GetSpan(3 + (2 * byte.MaxValue) + MostValueBytes);
        Has has = (reading.MeasuredAt is null ? Has.Nothing : Has.MeasuredAt)
            | (reading.AirC is null ? Has.Nothing : Has.Air)
            | (reading.HumidityPct is null ? Has.Nothing : Has.Humidity)
            | (reading.PanelC is null ? Has.Nothing : Has.Panel);
        bytes[0] = (byte)has;
        int end = 1;
        end += WriteText(bytes[end..], reading.Bay);
        end += WriteText(bytes[end..], reading.Probe);
        end += WriteValue(bytes[end..], reading.MeasuredAt?.UtcTicks);
        end += WriteValue(bytes[end..], Bits(reading.AirC));
        end += WriteValue(bytes[end..], Bits(reading.HumidityPct));
        end += WriteValue(bytes[end..], Bits(reading.PanelC));
        end += WriteValue(bytes[end..], reading.Sequence);
        payload.Advance(end);
    }

    /// <exception cref="ArgumentException">The payload is no reading.</exception>
    public static Entry.Reading Read(ReadOnlySpan<byte> payload, bool isNumbered)
    {
        var has = (Has)ReadByte(ref payload);
        string bay = ReadText(ref payload), probe = ReadText(ref payload);
        DateTimeOffset? measuredAt = has.HasFlag(Has.MeasuredAt) ? new DateTimeOffset(ReadValue(ref payload), TimeSpan.Zero) : null;
        return new Entry.Reading(
            bay,
            probe,
            measuredAt,
            ReadNumber(has.HasFlag(Has.Air), ref payload),
            ReadNumber(has.HasFlag(Has.Humidity), ref payload),
            ReadNumber(has.HasFlag(Has.Panel), ref payload),
            isNumbered ? ReadValue(ref payload) : null);
    }

    private static long? Bits(double? number) => number is { } known ? BitConverter.DoubleToInt64Bits(known) : null;

    private static int WriteText(Span<byte> bytes, string text)
    {
        int length = Encoding.UTF8.GetBytes(text, bytes[1..]);
        bytes[0] = checked((byte)length);
        return 1 + length;
    }

    private static int WriteValue(Span<byte> bytes, long? value)
    {
        if (value is not { } known)
        {
            return 0;
        }

        BinaryPrimitives.WriteInt64LittleEndian(bytes, known);
        return sizeof(long);
    }

    /// <remarks>A slice that is not there is refused in the words of <see cref="Read"/>; an index would not be.</remarks>
    private static byte ReadByte(ref ReadOnlySpan<byte> payload)
    {
        byte first = payload[..1][0];
        payload = payload[1..];
        return first;
    }

    private static string ReadText(ref ReadOnlySpan<byte> payload)
    {
        int length = ReadByte(ref payload);
        string text = Encoding.UTF8.GetString(payload[..length]);
        payload = payload[length..];
        return text;
    }

    private static long ReadValue(ref ReadOnlySpan<byte> payload)
    {
        long value = BinaryPrimitives.ReadInt64LittleEndian(payload);
        payload = payload[sizeof(long)..];
        return value;
    }

    private static double? ReadNumber(bool isThere, ref ReadOnlySpan<byte> payload) =>
        isThere ? BitConverter.Int64BitsToDouble(ReadValue(ref payload)) : null;
}
