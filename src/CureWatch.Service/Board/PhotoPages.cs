using CureWatch.Service.Api;
using CureWatch.Service.People;
using CureWatch.Service.Photos;
using CureWatch.Service.Pump;
using Microsoft.AspNetCore.Http.Headers;
using Microsoft.Net.Http.Headers;

namespace CureWatch.Service.Board;

/// <summary>
/// The pictures of a car's photos, and the button that removes one. Only a photo the journal knows is looked for: no name of a file comes from outside.
/// </summary>
internal static class PhotoPages
{
    private const string Type = "image/jpeg";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/jobs/{job}/photos/{photo}", (string job, string photo, HttpContext context, Latest latest, PhotoShelf shelf) =>
            Picture(job, photo, context, latest, "whole", () => shelf.Find(photo))).ExcludeFromDescription().LetsScreens();
        app.MapGet("/jobs/{job}/photos/{photo}/small", (string job, string photo, HttpContext context, Latest latest, PhotoShelf shelf) =>
            Picture(job, photo, context, latest, "small", () => Small(shelf.Find(photo)))).ExcludeFromDescription().LetsScreens();
        app.MapPost("/jobs/{job}/photos/{photo}/remove", Remove).ExcludeFromDescription().LetsManagers();
    }

    /// <summary>A browser asks each time whether it still may show it, since it may have been removed; it is sent once.</summary>
    private static IResult Picture(string job, string photo, HttpContext context, Latest latest, string size, Func<byte[]?> find)
    {
        if (latest.Register.Jobs.GetValueOrDefault(job)?.Photos.Any(p => p.Removed is null && p.Photo.Sha256 == photo) != true)
        {
            return BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"No such photo", $"There is no such photo of this car, or it was removed.");
        }

        var tag = new EntityTagHeaderValue($"\"{photo}-{size}\"");
        ResponseHeaders headers = context.Response.GetTypedHeaders();
        headers.CacheControl = new CacheControlHeaderValue { Private = true, NoCache = true };
        headers.ETag = tag;
        return context.Request.GetTypedHeaders().IfNoneMatch.Any(t => t.Compare(tag, useStrongComparison: false))
            ? Results.StatusCode(StatusCodes.Status304NotModified)
            : find() is { } jpeg ? Results.Bytes(jpeg, Type)
            : BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"The photo is damaged", $"Its file is missing, or is not what was written. A backup may have it.");
    }

    private static byte[]? Small(byte[]? jpeg) =>
        jpeg is not null && Darkroom.Develop(jpeg, Darkroom.SmallEdgePx) is Development.Done small ? small.Jpeg : null;

    private static async Task<IResult> Remove(string job, string photo, HttpContext context, PhotoDesk desk, Lookout lookout)
    {
        Answer answer = await desk.RemoveAsync(job, photo, Visitor.Of(context).Name);
        return answer is Answer.Stored or Answer.Repeated ? BoardForms.SeeOther(context, $"/jobs/{job}")
            : answer is Answer.NoSuchJob || lookout.Now() is not { } look
                ? BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"No such photo", $"There is no such photo of this car.")
            : BoardEndpoints.Job(look, job, BoardForms.FaultsOf(answer), BoardForms.StatusOf(answer));
    }
}
