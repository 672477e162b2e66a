using CureWatch.Service.Api;
using CureWatch.Service.Backups;
using CureWatch.Service.Board;
using CureWatch.Service.People;
using CureWatch.Service.Photos;
using CureWatch.Service.Pump;
using CureWatch.Words;
using Microsoft.AspNetCore.Http.Features;

namespace CureWatch.Service.Phone;

/// <summary>The form that adds a photo.</summary>
internal static class PhotoForms
{
    /// <summary>What beside the picture is in a form [bytes]. Source (choice).</summary>
    private const int MostBytesBeside = 64 << 10;

    /// <summary>How much is listened to of what is too large [bytes], so that a browser hears why. Source (choice): ten times what is taken.</summary>
    private const long MostBytesHeard = 10L * PhotoDesk.MostBytes;

    /// <summary>What .NET itself says of a stream that ends too soon (COR_E_IO); a disk says a number of its own.</summary>
    private const int EndsTooSoon = unchecked((int)0x80131620);

    private const int LongestValue = 1000;
    private const int MostValues = 10;

    public static Sentence TooLarge { get; } = $"The photo is larger than {PhotoDesk.MostBytes >> 20} MB. Set the phone's camera to a smaller size, and take it again.";

    public static void Map(IEndpointRouteBuilder app) => app.MapPost("/bay/{bay}/jobs/{job}/photos", Keep).ExcludeFromDescription().LetsTechnicians();

    private static async Task<IResult> Keep(string bay, string job, HttpContext context, PhotoDesk desk, Lookout lookout, BackupHealth backup)
    {
        (IFormCollection? form, IReadOnlyList<Sentence> faults, int status) = await FormAsync(context);
        if (form?.Files.GetFile("photo") is { } file && faults.Count == 0)
        {
            await using Stream sent = file.OpenReadStream();
            Answer answer = await desk.KeepAsync(job, Signature.On(Words(form), context), sent, context.RequestAborted);
            if (answer is Answer.Stored or Answer.Repeated)
            {
                return BoardForms.SeeOther(context, PhonePages.CarAt(bay, job));
            }

            (faults, status) = (answer is Answer.NotStored no ? [$"The photo is not kept: {BoardWords.Phrase(no.Why)}"] : BoardForms.FaultsOf(answer), BoardForms.StatusOf(answer));
        }

        return PhonePages.In(bay, lookout, look => PhonePages.Car(look, backup, bay, job, RefusedForm.None with { Faults = faults }, status));
    }

    /// <returns>The form, and what of it cannot be used with its status.</returns>
    private static async Task<(IFormCollection? Form, IReadOnlyList<Sentence> Faults, int Status)> FormAsync(HttpContext context)
    {
        const int MostBytes = PhotoDesk.MostBytes + MostBytesBeside;
        bool isTooLarge = context.Request.ContentLength > MostBytes;
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = isTooLarge ? MostBytesHeard : MostBytes;
        }

        var limits = new FormOptions
        {
            MultipartBodyLengthLimit = MostBytes,
            ValueLengthLimit = LongestValue,
            ValueCountLimit = MostValues,
        };
        try
        {
            if (isTooLarge)
            {
                await context.Request.Body.CopyToAsync(Stream.Null, context.RequestAborted);
                return (null, [TooLarge], StatusCodes.Status413PayloadTooLarge);
            }

            IFormCollection? form = context.Request.HasFormContentType ? await context.Request.ReadFormAsync(limits, context.RequestAborted) : null;
            return form?.Files.GetFile("photo") is not { Length: > 0 } file ? (null, [$"Photo: saw nothing; allowed: one picture"], StatusCodes.Status400BadRequest)
                : file.Length > PhotoDesk.MostBytes ? (null, [TooLarge], StatusCodes.Status413PayloadTooLarge)
                : (form, [], StatusCodes.Status200OK);
        }
        catch (BadHttpRequestException e) when (e.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return (null, [TooLarge], e.StatusCode);
        }
        catch (Exception e) when (e is InvalidDataException or BadHttpRequestException or IOException { HResult: EndsTooSoon })
        {
            return (null, [$"Photo: saw a form that cannot be read; allowed: one picture and what it shows"], StatusCodes.Status400BadRequest);
        }
        catch (IOException e) when (!context.RequestAborted.IsCancellationRequested)
        {
            return (null, [$"The photo is not kept: {e.Message}"], StatusCodes.Status503ServiceUnavailable); // what comes waits on this machine's disk
        }
    }

    private static ReadOnlyMemory<byte> Words(IFormCollection form) => JsonAnswer.Utf8Of(json =>
    {
        json.WriteStartObject();
        StartForms.Given(json, "surface", form["surface"].ToString());
        StartForms.Number(json, "layer", form["layer"].ToString());
        StartForms.Given(json, "by", form["by"].ToString().Trim());
        json.WriteEndObject();
    });
}
