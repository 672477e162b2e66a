using System.Buffers.Binary;
using System.Numerics;

namespace CureWatch.Service.Journal;

/// <summary>The checksum of every frame: CRC-32C (Castagnoli), by the processor's own instruction where it has one.</summary>
/// <remarks>Source (law): RFC 3720, appendix B.4, whose examples the tests check.</remarks>
internal static class Crc32C
{
    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        while (bytes.Length >= sizeof(ulong))
        {
            crc = BitOperations.Crc32C(crc, BinaryPrimitives.ReadUInt64LittleEndian(bytes));
            bytes = bytes[sizeof(ulong)..];
        }

        foreach (byte b in bytes)
        {
            crc = BitOperations.Crc32C(crc, b);
        }

        return ~crc;
    }
}
