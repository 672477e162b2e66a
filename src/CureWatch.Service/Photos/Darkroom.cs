using CureWatch.Words;
using SkiaSharp;

namespace CureWatch.Service.Photos;

/// <summary>
/// Makes of a picture that a stranger's device sent one that can be kept: read, turned upright, made smaller and written anew, so that nothing is left of
/// its file but what is seen: no place, no device, no thumbnail, no second content.
/// </summary>
internal static class Darkroom
{
    /// <summary>How long the edges are at most of what is kept [px]. Source (choice): a streak is seen, and a thousand photos are half a gigabyte.</summary>
    public const int LongEdgePx = 2048;

    /// <summary>The same of what stands on a page [px].</summary>
    public const int SmallEdgePx = 320;

    /// <summary>
    /// How many pixels a JPEG may have: it is read at an eighth of its size where that is enough. Source (choice): the largest that phones take by themselves.
    /// </summary>
    public const long MostPixels = 50_000_000;

    /// <summary>The same of what has to be read whole. Source (choice): 64 MB of a small computer's memory, one picture at a time.</summary>
    public const long MostPixelsAtOnce = 16_000_000;

    private const int Quality = 82;
    private const string Kinds = "a JPEG, PNG or WebP picture";

    /// <param name="sent">The bytes, whatever they are.</param>
    /// <param name="longEdgePx">How long an edge becomes at most [px].</param>
    public static Development Develop(ReadOnlySpan<byte> sent, int longEdgePx = LongEdgePx)
    {
        using var data = SKData.CreateCopy(sent);
        using SKCodec? codec = SKCodec.Create(data);
        if (codec is null || codec.EncodedFormat is not (SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png or SKEncodedImageFormat.Webp))
        {
            string seen = codec is null ? "no picture, or the beginning of one" : $"{codec.EncodedFormat}";
            return new Development.Refused(seen, Kinds);
        }

        if (codec.FrameCount > 1)
        {
            return new Development.Refused("pictures that move", "one that stands still");
        }

        // Before a pixel is read: the header alone says how much memory that would take.
        SKSizeI whole = codec.Info.Size;
        long pixels = (long)whole.Width * whole.Height, most = codec.EncodedFormat == SKEncodedImageFormat.Jpeg ? MostPixels : MostPixelsAtOnce;
        if (pixels > most)
        {
            int millions = (int)(most / 1_000_000);
            return new Development.Refused(
                $"{whole.Width} × {whole.Height}",
                most == MostPixels ? (Sentence)$"up to {millions} million pixels in a JPEG" : $"up to {millions} million pixels in a PNG or WebP");
        }

        SKSizeI size = Enumerable.Range(1, 8).Select(eighths => codec.GetScaledDimensions(eighths / 8f))
            .FirstOrDefault(s => Math.Max(s.Width, s.Height) >= longEdgePx, whole);
        using var taken = new SKBitmap();
        if (!taken.TryAllocPixels(new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb())))
        {
            return new Development.Refused($"{size.Width} × {size.Height}", "what this computer has memory for");
        }

        SKCodecResult read = codec.GetPixels(taken.Info, taken.GetPixels());
        return read == SKCodecResult.Success
            ? Print(taken, codec.EncodedOrigin, longEdgePx)
            : new Development.Refused(read == SKCodecResult.IncompleteInput ? "a picture that is cut short" : "a picture that is damaged", $"{Kinds}, whole");
    }

    private static Development Print(SKBitmap taken, SKEncodedOrigin origin, int longEdgePx)
    {
        float scale = Math.Min(1f, (float)longEdgePx / Math.Max(taken.Width, taken.Height));
        (int width, int height) = (Math.Max(1, (int)MathF.Round(taken.Width * scale)), Math.Max(1, (int)MathF.Round(taken.Height * scale)));
        SKMatrix upright = Upright.Of(origin, taken.Width, taken.Height);
        (int across, int down) = Upright.Swaps(origin) ? (height, width) : (width, height);
        var plain = new SKImageInfo(across, down, SKColorType.Rgba8888, SKAlphaType.Opaque); // of no colour space, or the JPEG would carry its profile
        using SKSurface? paper = SKSurface.Create(plain);
        if (paper is null)
        {
            return new Development.Refused($"{across} × {down}", "what this computer has memory for");
        }

        taken.SetImmutable();
        using SKImage image = SKImage.FromBitmap(taken);
        paper.Canvas.Clear(SKColors.White); // under what is transparent
        paper.Canvas.SetMatrix(SKMatrix.CreateScale(scale, scale).PreConcat(upright));
        paper.Canvas.DrawImage(image, 0, 0, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        using SKPixmap? pixels = paper.PeekPixels();
        using SKData? jpeg = pixels?.Encode(new SKJpegEncoderOptions(Quality));
        return jpeg is null
            ? new Development.Refused("a picture that cannot be written as a JPEG", Kinds)
            : new Development.Done(jpeg.ToArray(), across, down);
    }
}
