using System.Text.Json;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Api;

/// <summary>The one button that walks a car: what it would tell, and the press.</summary>
internal static class NextEndpoints
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/jobs/{job}/next", What).LetsScreens().WithSummary("What is to be done next on a car")
            .Gives("next", "What is next, and what then.").RefusesUnknownJob();
        api.MapPost("/jobs/{job}/next", Press).LetsTechnicians().WithSummary("Tells that what was next was done; the same press again, with its id, changes nothing")
            .Gives("pressed", "It was taken down as the tap in the answer.", StatusCodes.Status201Created)
            .Gives("pressed", "It had been told before: the tap with that id.")
            .Refuses(StatusCodes.Status409Conflict, "Nothing can be told by one press now, or something else is next than was seen; 'detail' says what.")
            .RefusesWrites("press").RefusesUnknownJob();
    }

    private static IResult What(string job, Lookout lookout) => JobEndpoints.About(job, lookout, (look, state) => JsonAnswer.Object(json =>
    {
        json.WriteString("job", job);
        json.WriteInstant("at", look.At);
        NextJson.Write(json, look.ReportOf(state).Next);
    }));

    private static async Task<IResult> Press(string job, HttpContext context, Inbox inbox, Lookout lookout, ServiceSettings settings)
    {
        if (!OriginRule.IsJson(context.Request))
        {
            return JobWrites.NoJson();
        }

        ReadOnlyMemory<byte> body = await Body.ReadAsync(context, settings.Limits.PayloadBytes);
        Answer answer = await inbox.AskAsync(new Arrival.Next("press", job, Signature.On(body, context)), context.RequestAborted);
        return Answers.Over(answer, isRepeated => JobEndpoints.About(job, lookout, (look, state) => JsonAnswer.Object(
            json =>
            {
                json.WriteString("job", job);
                json.WriteString("answer", isRepeated ? "repeated" : "stored");
                json.WriteStartObject("tap");
                CarJson.WriteTap(json, state.Told.Last(t => t.Id == IdOf(body)));
                json.WriteEndObject();
                NextJson.Write(json, look.ReportOf(state).Next);
            },
            isRepeated ? StatusCodes.Status200OK : StatusCodes.Status201Created)));
    }

    /// <summary>The pump has read the body before and found an id in it.</summary>
    private static string? IdOf(ReadOnlyMemory<byte> body)
    {
        using var document = JsonDocument.Parse(body);
        return document.RootElement.GetProperty("id").GetString();
    }
}
