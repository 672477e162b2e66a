using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Api;

/// <summary>What people tell of a car that is here: taps, and that it leaves.</summary>
internal static class JobWrites
{
    private const int MostOfHandover = 16 * 1024;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapPost("/jobs/{job}/taps", Tap).LetsTechnicians().WithSummary("Tells a tap; the same tap again, with its id, changes nothing")
            .Gives("told", "It was taken down.", StatusCodes.Status201Created)
            .Gives("told", "It had been told before, word for word.")
            .RefusesWrites("tap").RefusesUnknownJob();
        api.MapPost("/jobs/{job}/handover", HandOver).LetsTechnicians().WithSummary("Hands the car over")
            .Gives("handover", "The car left.")
            .Refuses(StatusCodes.Status409Conflict, "The car is held, and nobody said why it leaves all the same; 'holds' names every hold.")
            .RefusesWrites("leave").RefusesUnknownJob();
    }

    public static IResult NoJson() => Problem.Of(StatusCodes.Status415UnsupportedMediaType, "Send application/json in UTF-8.");

    private static async Task<IResult> Tap(string job, HttpContext context, Inbox inbox, ServiceSettings settings)
    {
        if (!OriginRule.IsJson(context.Request))
        {
            return NoJson();
        }

        ReadOnlyMemory<byte> body = await Body.ReadAsync(context, settings.Limits.PayloadBytes);
        Answer answer = await inbox.AskAsync(new Arrival.Tap("tap", job, Signature.On(body, context)), context.RequestAborted);
        return Answers.Over(answer, isRepeated => JsonAnswer.Object(
            json =>
            {
                json.WriteString("job", job);
                json.WriteString("answer", isRepeated ? "repeated" : "stored");
            },
            isRepeated ? StatusCodes.Status200OK : StatusCodes.Status201Created));
    }

    private static async Task<IResult> HandOver(string job, HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (!OriginRule.IsJson(context.Request))
        {
            return NoJson();
        }

        var faults = new Faults();
        JsonCursor? top = JsonFile.Parse("handover", (await Body.ReadAsync(context, MostOfHandover)).Span, faults);
        (string? by, string? despite) = top is null ? (null, null) : Departure.Read(top);
        if (faults.Count > 0)
        {
            return Problem.Faulty([.. faults.All]);
        }

        Answer answer = await inbox.AskAsync(new Arrival.HandOver(job, Visitor.Of(context).Name ?? by, despite), context.RequestAborted);
        return Answers.Over(answer, _ => JobEndpoints.Handover(job, lookout));
    }
}
