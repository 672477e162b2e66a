using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>The photos of a car, also of one that left long ago. They are added on the phone's page alone.</summary>
internal static class PhotoEndpoints
{
    public static void Map(RouteGroupBuilder api) => api.MapGet("/jobs/{job}/photos", All).LetsScreens()
        .WithSummary("The photos of a car, those that were removed included").Gives("photos", "The photos.").RefusesUnknownJob();

    /// <summary>Where a photo's picture is.</summary>
    public static string LinkTo(string job, string photo) => $"/jobs/{job}/photos/{photo}";

    private static IResult All(string job, Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : look.Register.Jobs.GetValueOrDefault(job) is not { } marks ? Problem.Of(StatusCodes.Status404NotFound, $"No job '{job}'.")
        : JsonAnswer.Object(json =>
        {
            json.WriteString("job", job);
            json.WriteArray("photos", marks.Photos, (KeptPhoto kept) =>
            {
                json.WriteString("photo", kept.Photo.Sha256);
                json.WriteString("href", kept.Removed is null ? LinkTo(job, kept.Photo.Sha256) : null);
                json.WriteInstant("at", kept.At);
                json.WriteString("by", kept.Photo.By);
                json.WriteString("surface", kept.Photo.Surface);
                json.WriteWhole("layer", kept.Photo.Layer);
                json.WriteNumber("bytes", kept.Photo.Bytes);
                json.WriteNumber("widthPx", kept.Photo.WidthPx);
                json.WriteNumber("heightPx", kept.Photo.HeightPx);
                json.WriteInstant("removedAt", kept.Removed?.At);
                json.WriteString("removedBy", kept.Removed?.By);
            });
        });
}
