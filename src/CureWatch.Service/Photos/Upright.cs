using SkiaSharp;

namespace CureWatch.Service.Photos;

/// <summary>Turns a picture as it was meant to be seen: phones write it as the sensor lay, and beside it how they were held.</summary>
internal static class Upright
{
    /// <summary>Whether width and height change places.</summary>
    public static bool Swaps(SKEncodedOrigin origin) =>
        origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;

    /// <summary>From the pixels as they were written to where they belong.</summary>
    /// <param name="origin">Which corner the first pixel belongs to, as EXIF's Orientation says it (CIPA DC-008, tag 274).</param>
    /// <param name="width">The width as it was written [px].</param>
    /// <param name="height">The height as it was written [px].</param>
    public static SKMatrix Of(SKEncodedOrigin origin, int width, int height) => origin switch
    {
        SKEncodedOrigin.TopRight => new SKMatrix(-1, 0, width, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new SKMatrix(-1, 0, width, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new SKMatrix(1, 0, 0, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new SKMatrix(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new SKMatrix(0, -1, height, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new SKMatrix(0, -1, height, -1, 0, width, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new SKMatrix(0, 1, 0, -1, 0, width, 0, 0, 1),
        _ => SKMatrix.Identity,
    };
}
