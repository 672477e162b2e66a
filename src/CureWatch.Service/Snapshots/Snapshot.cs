using System.Buffers.Binary;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Snapshots;

/// <summary>
/// What followed from a journal up to one of its entries, in a file that may be thrown away. In front of the packed state, little-endian: [mark: 8]
/// [form: 4][SHA-256 of the shape: 32][journal: 16][sequence: 8][length of the state unpacked: 4]; behind it the SHA-256 of all that: 32.
/// </summary>
internal static class Snapshot
{
    private const int Form = 1;
    private const int ShapeAt = 12, JournalAt = ShapeAt + SHA256.HashSizeInBytes, SequenceAt = JournalAt + Segment.JournalIdBytes;
    private const int LengthAt = SequenceAt + 8;
    private const int HeaderBytes = LengthAt + 4;

    private static readonly Lazy<(Forms Forms, byte[] Shape)> Known = new(() =>
    {
        var forms = new Forms();
        forms.Of<Register>();
        string shape = string.Join('\n', forms.Shape.Prepend($"{Environment.Version} {IntPtr.Size} {BitConverter.IsLittleEndian}"));
        return (forms, SHA256.HashData(Encoding.UTF8.GetBytes(shape)));
    });

    private static ReadOnlySpan<byte> Mark => "cwsnapsh"u8;

    public static byte[] Of(Register register, ReadOnlySpan<byte> journalId)
    {
        var state = new StateWriter();
        Known.Value.Forms.Of<Register>().Write(state, register);
        using var file = new MemoryStream();
        Span<byte> header = stackalloc byte[HeaderBytes];
        Mark.CopyTo(header);
        BinaryPrimitives.WriteInt32LittleEndian(header[8..], Form);
        Known.Value.Shape.CopyTo(header[ShapeAt..]);
        journalId.CopyTo(header[JournalAt..]);
        BinaryPrimitives.WriteInt64LittleEndian(header[SequenceAt..], register.Sequence);
        BinaryPrimitives.WriteInt32LittleEndian(header[LengthAt..], state.Written.Length);
        file.Write(header);
        using (var packed = new BrotliStream(file, CompressionLevel.Fastest, leaveOpen: true))
        {
            packed.Write(state.Written);
        }

        file.Write(SHA256.HashData(file.GetBuffer().AsSpan(0, (int)file.Length)));
        return file.ToArray();
    }

    /// <returns>The state; null where the file is not whole, or of another journal or program.</returns>
    public static Register? Read(ReadOnlySpan<byte> file, ReadOnlySpan<byte> journalId)
    {
        if (file.Length < HeaderBytes + SHA256.HashSizeInBytes || !file[..8].SequenceEqual(Mark)
            || !SHA256.HashData(file[..^SHA256.HashSizeInBytes]).AsSpan().SequenceEqual(file[^SHA256.HashSizeInBytes..])
            || BinaryPrimitives.ReadInt32LittleEndian(file[8..]) != Form
            || !file.Slice(ShapeAt, SHA256.HashSizeInBytes).SequenceEqual(Known.Value.Shape)
            || !file.Slice(JournalAt, Segment.JournalIdBytes).SequenceEqual(journalId))
        {
            return null;
        }

        using var packed = new BrotliStream(new MemoryStream(file[HeaderBytes..^SHA256.HashSizeInBytes].ToArray()), CompressionMode.Decompress);
        byte[] state = new byte[BinaryPrimitives.ReadInt32LittleEndian(file[LengthAt..])];
        packed.ReadExactly(state);
        return Known.Value.Forms.Of<Register>().Read(new StateReader(state));
    }
}
