using CureWatch.Service.Api;
using CureWatch.Service.Photos;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Board;

/// <summary>Puts the photos of a car on a page, the newest first.</summary>
internal static class PhotoViews
{
    public static IReadOnlyList<PhotoView> Of(Look look, ShopClock clock, string job) =>
        [.. (look.Register.Jobs.GetValueOrDefault(job)?.Photos ?? []).Where(p => p.Removed is null).Reverse().Select(p => Of(p, clock, job))];

    private static PhotoView Of(KeptPhoto kept, ShopClock clock, string job)
    {
        double scale = Math.Min(1, (double)Darkroom.SmallEdgePx / Math.Max(kept.Photo.WidthPx, kept.Photo.HeightPx));
        return new PhotoView(
            PhotoEndpoints.LinkTo(job, kept.Photo.Sha256),
            kept.Photo.Surface is { } surface ? BoardWords.Coat(surface, kept.Photo.Layer, null) : $"the car",
            clock.Of(kept.At),
            kept.Photo.By,
            (int)Math.Ceiling(kept.Photo.WidthPx * scale),
            (int)Math.Ceiling(kept.Photo.HeightPx * scale));
    }
}
