using System.Text;
using CureWatch.Service.Photos;
using SkiaSharp;

namespace CureWatch.Service.Tests.Photos;

/// <summary>What is kept is a JPEG of our own writing, whatever was sent; or nothing is.</summary>
public class DarkroomTests
{
    private const string Secret = "SOMEBODY AT HOME";

    // Where the first pixel belongs, by the value of EXIF's Orientation. Source: CIPA DC-008-2019 (Exif 2.32), 4.6.4, tag 274.
    [Theory]
    [InlineData(1, false, false, false)]
    [InlineData(2, false, true, false)]
    [InlineData(3, false, true, true)]
    [InlineData(4, false, false, true)]
    [InlineData(5, true, false, false)]
    [InlineData(6, true, true, false)]
    [InlineData(7, true, true, true)]
    [InlineData(8, true, false, true)]
    public void Picture_IsTurnedAsItWasMeant(int orientation, bool isSwapped, bool isRight, bool isLow)
    {
        Development.Done done = Done(Pictures.WithExif(Pictures.Of(), orientation, Secret));
        Assert.Equal(isSwapped ? (200, 400) : (400, 200), (done.WidthPx, done.HeightPx));
        using SKBitmap seen = SKBitmap.Decode(done.Jpeg);
        foreach ((int x, int y) in new[] { (0, 0), (1, 0), (0, 1), (1, 1) })
        {
            SKColor corner = seen.GetPixel(x == 0 ? 20 : seen.Width - 20, y == 0 ? 20 : seen.Height - 20);
            bool isRed = (x == 1) == isRight && (y == 1) == isLow;
            Assert.True(isRed ? corner is { Red: > 200, Blue: < 60 } : corner is { Red: < 60, Blue: > 200 }, $"{x},{y}: {corner}");
        }
    }

    [Fact]
    public void Kept_HasNothingButPixels()
    {
        byte[] sent = Pictures.WithExif(Pictures.Of(), 6, Secret);
        sent = Pictures.Behind(sent, 0xED, Encoding.ASCII.GetBytes($"Photoshop 3.0\0{Secret}"));
        sent = Pictures.Behind(sent, 0xFE, Encoding.ASCII.GetBytes(Secret));
        sent = [.. sent, .. Encoding.ASCII.GetBytes($"<script>{Secret}</script>"), .. "PK\u0003\u0004"u8];
        byte[] kept = Done(sent).Jpeg;
        Assert.Contains(Secret, Encoding.Latin1.GetString(sent), StringComparison.Ordinal);
        Assert.DoesNotContain(Secret, Encoding.Latin1.GetString(kept), StringComparison.Ordinal);
        Assert.DoesNotContain(Pictures.Segments(kept), s => s.Marker is >= 0xE1 and <= 0xEF or 0xFE);
        Assert.Equal([0xFF, 0xD9], kept[^2..]);
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg, 4032, 3024, 2048, 1536)]
    [InlineData(SKEncodedImageFormat.Jpeg, 2049, 100, 2048, 100)]
    [InlineData(SKEncodedImageFormat.Png, 3000, 2000, 2048, 1365)]
    [InlineData(SKEncodedImageFormat.Webp, 1000, 3000, 683, 2048)]
    [InlineData(SKEncodedImageFormat.Png, 1, 1, 1, 1)]
    [InlineData(SKEncodedImageFormat.Png, 4000, 1, 2048, 1)]
    public void Kept_IsAsLargeAsAPageNeeds_AndNoLarger(SKEncodedImageFormat format, int width, int height, int keptWidth, int keptHeight)
    {
        Development.Done done = Done(Pictures.Of(format, width, height));
        using SKBitmap seen = SKBitmap.Decode(done.Jpeg);
        Assert.Equal((keptWidth, keptHeight, keptWidth, keptHeight), (done.WidthPx, done.HeightPx, seen.Width, seen.Height));
    }

    [Fact]
    public void Transparent_IsOnWhite()
    {
        using SKSurface surface = SKSurface.Create(new SKImageInfo(32, 32, SKColorType.Rgba8888, SKAlphaType.Premul));
        surface.Canvas.Clear(SKColors.Transparent);
        using SKImage image = surface.Snapshot();
        using SKData png = image.Encode(SKEncodedImageFormat.Png, 100);
        using SKBitmap seen = SKBitmap.Decode(Done(png.ToArray()).Jpeg);
        Assert.Equal(SKColors.White, seen.GetPixel(16, 16));
    }

    public static TheoryData<string, byte[], string> Hostile { get; } = new()
    {
        { "nothing", [], "no picture" },
        { "words", "hello"u8.ToArray(), "no picture" },
        { "a drawing that can hold a script", "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><script>alert(1)</script></svg>"u8.ToArray(), "no picture" },
        { "the beginning of one", Pictures.Of()[..60], "no picture" },
        { "half of one", Pictures.Of(width: 3000, height: 2000)[..9000], "cut short" },
        { "half of a PNG", Pictures.Of(SKEncodedImageFormat.Png)[..120], "cut short" },
        { "one that is told too large", Pictures.Told(Pictures.Of(), 30_000, 30_000), "30000 × 30000" },
        { "a PNG that is told too large", Pictures.ToldPng(Pictures.Of(SKEncodedImageFormat.Png), 30_000, 30_000), "30000 × 30000" },
        { "a PNG that is large for one", Pictures.ToldPng(Pictures.Of(SKEncodedImageFormat.Png), 5000, 4000), "5000 × 4000" },
        { "one that moves", Pictures.Moving(), "pictures that move" },
        { "another kind", "GIF89a\u0001\0\u0001\0\u0080\0\0\0\0\0\u00FF\u00FF\u00FF,\0\0\0\0\u0001\0\u0001\0\0\u0002\u0002D\u0001\0;"u8.ToArray(), "" },
    };

    [Theory]
    [MemberData(nameof(Hostile))]
    public void WhatIsNoPhoto_IsRefused_InWords(string what, byte[] sent, string seen)
    {
        Development.Refused refused = Assert.IsType<Development.Refused>(Darkroom.Develop(sent));
        Assert.True(refused.Seen.Contains(seen, StringComparison.Ordinal), $"{what}: {refused.Seen}");
        Assert.NotEmpty(refused.Allowed.ToString());
    }

    [Fact]
    public void AnyBytesChanged_GiveAPhotoOfOurOwn_OrARefusal()
    {
        var random = new Random(1);
        byte[][] sound = [Pictures.WithExif(Pictures.Of(), 6, Secret), Pictures.Of(SKEncodedImageFormat.Png), Pictures.Of(SKEncodedImageFormat.Webp), Pictures.Moving()];
        int kept = 0, refused = 0;
        for (int i = 0; i < 800; i++)
        {
            byte[] sent = [.. sound[i % sound.Length]];
            for (int change = 0; change <= i % 7; change++)
            {
                sent[random.Next(sent.Length)] = (byte)random.Next(256);
            }

            if (Darkroom.Develop(sent) is Development.Done done)
            {
                kept++;
                Assert.True(done is { WidthPx: <= Darkroom.LongEdgePx, HeightPx: <= Darkroom.LongEdgePx });
                Assert.DoesNotContain(Pictures.Segments(done.Jpeg), s => s.Marker is >= 0xE1 and <= 0xEF or 0xFE);
            }
            else
            {
                refused++;
            }
        }

        Assert.True(kept > 50 && refused > 50, $"{kept} kept, {refused} refused");
    }

    private static Development.Done Done(byte[] sent) => Assert.IsType<Development.Done>(Darkroom.Develop(sent));
}
