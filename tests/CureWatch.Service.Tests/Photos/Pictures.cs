using System.Buffers.Binary;
using System.Text;
using SkiaSharp;

namespace CureWatch.Service.Tests.Photos;

/// <summary>Pictures as phones and strangers send them. All of it is drawn here.</summary>
internal static class Pictures
{
    /// <summary>Blue, with a red quarter where the first pixel is.</summary>
    public static byte[] Of(SKEncodedImageFormat format = SKEncodedImageFormat.Jpeg, int width = 400, int height = 200)
    {
        using SKSurface surface = SKSurface.Create(new SKImageInfo(width, height));
        using var red = new SKPaint { Color = SKColors.Red };
        surface.Canvas.Clear(SKColors.Blue);
        surface.Canvas.DrawRect(0, 0, width / 2f, height / 2f, red);
        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(format, 90);
        return data.ToArray();
    }

    /// <summary>A JPEG with an EXIF segment as phones write it: how it was held, where it was, and who made it.</summary>
    public static byte[] WithExif(byte[] jpeg, int orientation, string secret)
    {
        // TIFF, big-endian: Orientation (274, SHORT), Artist (315, ASCII), GPSInfo (34853, LONG to the latitude's reference).
        byte[] text = Encoding.ASCII.GetBytes(secret + "\0");
        int after = 8 + 2 + (3 * 12) + 4;
        var tiff = new MemoryStream();
        tiff.Write([(byte)'M', (byte)'M', 0, 42, 0, 0, 0, 8, 0, 3]);
        Tag(tiff, 274, 3, 1, (uint)orientation << 16);
        Tag(tiff, 315, 2, (uint)text.Length, (uint)after);
        Tag(tiff, 34853, 4, 1, (uint)(after + text.Length));
        tiff.Write([0, 0, 0, 0]);
        tiff.Write(text);
        tiff.Write([0, 1]);
        Tag(tiff, 1, 2, 2, (uint)'N' << 24);
        tiff.Write([0, 0, 0, 0]);
        return Behind(jpeg, 0xE1, [.. "Exif\0\0"u8, .. tiff.ToArray()]);
    }

    /// <summary>A JPEG with one more segment behind its beginning.</summary>
    public static byte[] Behind(byte[] jpeg, byte marker, byte[] content)
    {
        byte[] length = new byte[2];
        BinaryPrimitives.WriteUInt16BigEndian(length, (ushort)(content.Length + 2));
        return [.. jpeg[..2], 0xFF, marker, .. length, .. content, .. jpeg[2..]];
    }

    /// <summary>A JPEG whose header tells another size than it has.</summary>
    public static byte[] Told(byte[] jpeg, int width, int height)
    {
        byte[] told = [.. jpeg];
        int frame = Segments(jpeg).Single(s => s.Marker is 0xC0 or 0xC2).At;
        BinaryPrimitives.WriteUInt16BigEndian(told.AsSpan(frame + 5), (ushort)height);
        BinaryPrimitives.WriteUInt16BigEndian(told.AsSpan(frame + 7), (ushort)width);
        return told;
    }

    /// <summary>A PNG whose header tells another size than it has, with the checksum that fits it.</summary>
    public static byte[] ToldPng(byte[] png, int width, int height)
    {
        byte[] told = [.. png];
        BinaryPrimitives.WriteInt32BigEndian(told.AsSpan(16), width);
        BinaryPrimitives.WriteInt32BigEndian(told.AsSpan(20), height);
        BinaryPrimitives.WriteUInt32BigEndian(told.AsSpan(29), Crc32(told.AsSpan(12, 17)));
        return told;
    }

    /// <summary>A WebP of two frames that move (RIFF container, VP8X, ANIM, ANMF).</summary>
    public static byte[] Moving(int width = 64, int height = 32)
    {
        byte[] frame = Of(SKEncodedImageFormat.Webp, width, height)[12..];
        byte[] size = [.. Little(width - 1, 3), .. Little(height - 1, 3)];
        byte[] moved = Chunk("ANMF", [.. Little(0, 3), .. Little(0, 3), .. size, .. Little(100, 3), 0, .. frame]);
        byte[] body = [.. "WEBP"u8, .. Chunk("VP8X", [2, 0, 0, 0, .. size]), .. Chunk("ANIM", [0, 0, 0, 0, 0, 0]), .. moved, .. moved];
        return [.. "RIFF"u8, .. Little(body.Length, 4), .. body];
    }

    /// <summary>The segments of a JPEG up to its pixels.</summary>
    public static IEnumerable<(byte Marker, int At)> Segments(byte[] jpeg)
    {
        for (int at = 2; at + 4 <= jpeg.Length && jpeg[at] == 0xFF; at += 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(at + 2)))
        {
            yield return (jpeg[at + 1], at);
            if (jpeg[at + 1] == 0xDA)
            {
                yield break;
            }
        }
    }

    private static void Tag(MemoryStream tiff, ushort tag, ushort type, uint count, uint value)
    {
        byte[] entry = new byte[12];
        BinaryPrimitives.WriteUInt16BigEndian(entry, tag);
        BinaryPrimitives.WriteUInt16BigEndian(entry.AsSpan(2), type);
        BinaryPrimitives.WriteUInt32BigEndian(entry.AsSpan(4), count);
        BinaryPrimitives.WriteUInt32BigEndian(entry.AsSpan(8), value);
        tiff.Write(entry);
    }

    /// <summary>The checksum of a PNG's chunk. Source: W3C PNG (third edition), annex D.</summary>
    private static uint Crc32(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        foreach (byte b in bytes)
        {
            crc ^= b;
            for (int bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0xEDB88320;
            }
        }

        return ~crc;
    }

    private static byte[] Little(int number, int bytes) => [.. Enumerable.Range(0, bytes).Select(i => (byte)(number >> (8 * i)))];

    private static byte[] Chunk(string name, byte[] content) =>
        [.. Encoding.ASCII.GetBytes(name), .. Little(content.Length, 4), .. content, .. content.Length % 2 == 1 ? new byte[1] : []];
}
