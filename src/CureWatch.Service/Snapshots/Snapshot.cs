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
    /// <summary>To be raised whenever a state has the same fields as before, but what they say is another thing.</summary>
    private const int Form = 5;

    private const int ShapeAt = 12, JournalAt = ShapeAt + SHA256.HashSizeInBytes, SequenceAt = JournalAt + Segment.JournalIdBytes;
    /// <summary>How many times its size a state unpacks to at most; what asks for more is no snapshot of ours. Source (choice): four to ten are usual.</summary>
    private const int MostUnpacked = 200;

    private const int LengthAt = SequenceAt + 8;

    public const int HeaderBytes = LengthAt + 4;

    private static readonly Lazy<(Forms Forms, byte[] Shape)> Known = new(() =>
    {
        var forms = new Forms();
        forms.Of<SealedState>();
        string shape = string.Join('\n', forms.Shape.Prepend($"{IntPtr.Size} {BitConverter.IsLittleEndian}"));
        return (forms, SHA256.HashData(Encoding.UTF8.GetBytes(shape)));
    });

    private static ReadOnlySpan<byte> Mark => "cwsnapsh"u8;

    public static byte[] Of(Register register, ReadOnlySpan<byte> journalId, KeyStore keys)
    {
        var state = new StateWriter();
        Known.Value.Forms.Of<SealedState>().Write(state, SealedState.Of(register, keys));
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

    /// <summary>Whether a file that begins so is of this journal, and its state one that this program can read.</summary>
    public static bool IsOurs(ReadOnlySpan<byte> start, ReadOnlySpan<byte> journalId) =>
        start.Length >= HeaderBytes
        && start[..8].SequenceEqual(Mark)
        && BinaryPrimitives.ReadInt32LittleEndian(start[8..]) == Form
        && start.Slice(ShapeAt, SHA256.HashSizeInBytes).SequenceEqual(Known.Value.Shape)
        && start.Slice(JournalAt, Segment.JournalIdBytes).SequenceEqual(journalId);

    /// <returns>After which entry of which journal a file was taken, by whatever program; null where it is not what was written.</returns>
    public static (byte[] JournalId, long Sequence)? Whole(ReadOnlySpan<byte> file) =>
        file.Length >= HeaderBytes + SHA256.HashSizeInBytes && file[..8].SequenceEqual(Mark) && IsWhole(file)
            ? (file.Slice(JournalAt, Segment.JournalIdBytes).ToArray(), BinaryPrimitives.ReadInt64LittleEndian(file[SequenceAt..]))
            : null;

    /// <returns>The state; null where the file is not whole, or of another journal or program.</returns>
    /// <exception cref="InvalidDataException">A key is not the one that it was sealed with.</exception>
    public static Register? Read(ReadOnlySpan<byte> file, ReadOnlySpan<byte> journalId, KeyStore keys)
    {
        if (file.Length < HeaderBytes + SHA256.HashSizeInBytes || !IsOurs(file, journalId) || !IsWhole(file))
        {
            return null;
        }

        using var packed = new BrotliStream(new MemoryStream(file[HeaderBytes..^SHA256.HashSizeInBytes].ToArray()), CompressionMode.Decompress);
        int length = BinaryPrimitives.ReadInt32LittleEndian(file[LengthAt..]);
        byte[] unpacked = new byte[length >= 0 && length / MostUnpacked <= file.Length ? length : throw StateReader.Broken()];
        packed.ReadExactly(unpacked);
        var state = new StateReader(unpacked);
        SealedState? read = Known.Value.Forms.Of<SealedState>().Read(state);
        return state.IsAtEnd ? read?.Open(keys) : null;
    }

    private static bool IsWhole(ReadOnlySpan<byte> file) =>
        SHA256.HashData(file[..^SHA256.HashSizeInBytes]).AsSpan().SequenceEqual(file[^SHA256.HashSizeInBytes..]);
}
