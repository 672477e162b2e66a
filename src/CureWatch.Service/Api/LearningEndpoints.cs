using CureWatch.Bays;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>What the shop's taps taught beyond the sheets.</summary>
internal static class LearningEndpoints
{
    private const int MostOfReset = 16 * 1024;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/learning", All).LetsScreens().WithSummary("How far flash and drying differ from the sheets here, as taps taught it")
            .Gives("learning", "By product, stage and bay.");
        api.MapPost("/learning/reset", Reset).LetsManagers()
            .WithSummary("Forgets what was learnt about a product, or about it in one bay; coats that are on keep what they were begun with")
            .Gives("learning", "It starts anew; what is still known.")
            .RefusesWrites("learning-reset");
    }

    private static IResult All(Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            json.WriteArray("learning", LearningReport.Of(look.Shop), r => LearningJson.Write(json, r));
        });

    private static async Task<IResult> Reset(HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (!OriginRule.IsJson(context.Request))
        {
            return JobWrites.NoJson();
        }

        if (lookout.Now() is null)
        {
            return Problem.NoShopYet();
        }

        ReadOnlyMemory<byte> body = Signature.On(await Body.ReadAsync(context, MostOfReset), context);
        Answer answer = await inbox.AskAsync(new Arrival.LearningReset("reset", body), context.RequestAborted);
        return Answers.Over(answer, _ => All(lookout));
    }
}
