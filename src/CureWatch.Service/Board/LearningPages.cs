using CureWatch.Service.Api;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>The page of what was learnt, and the form that has it start anew.</summary>
internal static class LearningPages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/learning", (Lookout lookout) => BoardEndpoints.With(lookout, look => Show(look, [], RefusedForm.None, StatusCodes.Status200OK)))
            .ExcludeFromDescription().LetsScreens();
        app.MapPost("/learning/reset", Reset).ExcludeFromDescription().LetsManagers();
    }

    private static async Task<IResult> Reset(HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (await BoardForms.FormAsync(context) is not { } form || lookout.Now() is not { } look)
        {
            return BoardForms.NoForm();
        }

        ReadOnlyMemory<byte> asked = JsonAnswer.Utf8Of(json =>
        {
            json.WriteStartObject();
            foreach (string name in (string[])["product", "bay", "by", "note"])
            {
                StartForms.Given(json, name, form[name].ToString().Trim());
            }

            json.WriteEndObject();
        });
        Answer answer = await inbox.AskAsync(new Arrival.LearningReset("form", Signature.On(asked, context)), context.RequestAborted);
        return answer is Answer.Stored
            ? BoardForms.SeeOther(context, "/learning")
            : Show(lookout.Now() ?? look, BoardForms.FaultsOf(answer), RefusedForm.Of("", form), BoardForms.StatusOf(answer));
    }

    private static Page<LearningPage> Show(Look look, IReadOnlyList<Sentence> faults, RefusedForm refused, int status) =>
        new(status, (nameof(LearningPage.View), LearningViews.Of(look, faults)), (nameof(LearningPage.Refused), refused));
}
