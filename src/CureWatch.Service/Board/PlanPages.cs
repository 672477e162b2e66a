using System.Text.Json;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Service.Tongues;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>The page of the day plan, and the forms that plan.</summary>
internal static class PlanPages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/plan", (Lookout lookout) => BoardEndpoints.With(lookout, look => Show(look, [], RefusedForm.None, StatusCodes.Status200OK))).ExcludeFromDescription().LetsScreens();
        app.MapPost("/plan/work", (HttpContext context, Inbox inbox, Lookout lookout) => PlanAsync(PlanVerb.Add, null, context, inbox, lookout))
            .ExcludeFromDescription().LetsTechnicians();
        app.MapPost("/plan/work/{id}", (string id, HttpContext context, Inbox inbox, Lookout lookout) => PlanAsync(PlanVerb.Put, id, context, inbox, lookout))
            .ExcludeFromDescription().LetsTechnicians();
        app.MapPost("/plan/work/{id}/drop", (string id, HttpContext context, Inbox inbox, Lookout lookout) => PlanAsync(PlanVerb.Drop, id, context, inbox, lookout))
            .ExcludeFromDescription().LetsTechnicians();
        app.MapPost("/plan/visit/{id}", (string id, HttpContext context, Inbox inbox, Lookout lookout) => PlanAsync(PlanVerb.Visit, id, context, inbox, lookout))
            .ExcludeFromDescription().LetsTechnicians();
        app.MapPost("/plan/visit/{id}/cancel", (string id, HttpContext context, Inbox inbox, Lookout lookout) => PlanAsync(PlanVerb.Cancel, id, context, inbox, lookout))
            .ExcludeFromDescription().LetsTechnicians();
    }

    private static async Task<IResult> PlanAsync(PlanVerb verb, string? id, HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (await BoardForms.FormAsync(context) is not { } form || lookout.Now() is not { } look)
        {
            return BoardForms.NoForm();
        }

        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        ReadOnlyMemory<byte> asked = JsonAnswer.Utf8Of(json =>
        {
            json.WriteStartObject();
            foreach (string name in verb is PlanVerb.Add or PlanVerb.Put ? ["bay", "work", "by", "note"] : (string[])["by"])
            {
                StartForms.Given(json, name, form[name].ToString().Trim());
            }

            if (verb is PlanVerb.Add or PlanVerb.Put)
            {
                Time(json, "from", form["from"].ToString(), clock);
                Time(json, "to", form["to"].ToString(), clock);
            }
            else if (verb == PlanVerb.Visit)
            {
                Visit(json, form["arrives"].ToString(), form["arrivesC"].ToString(), form["unit"].ToString(), form["planned"].ToString(), clock);
            }

            json.WriteEndObject();
        });
        Answer answer = await inbox.AskAsync(new Arrival.Planned(verb, "form", id, Signature.On(asked, context)), context.RequestAborted);
        return answer is Answer.Stored or Answer.Repeated
            ? BoardForms.SeeOther(context, "/plan")
            : Show(
                lookout.Now() ?? look,
                FaultWords.Of(answer, clock),
                RefusedForm.Of(id ?? "", form),
                BoardForms.StatusOf(answer));
    }

    /// <summary>When a car comes, how cold, and when it is to be begun, as a job file says it.</summary>
    public static void Visit(Utf8JsonWriter json, string arrives, string arrivesDegrees, string unit, string planned, ShopClock clock)
    {
        Time(json, "arrivesAt", arrives, clock);
        Time(json, "plannedAt", planned, clock);
        TypedNumber.Write(json, unit == TongueOfRequest.FahrenheitSign ? "arrivesAtF" : "arrivesAtC", arrivesDegrees);
    }

    /// <summary>Writes a time on the shop's wall clock as an instant, and one that no clock shows as it stands, so that it is refused by name.</summary>
    private static void Time(Utf8JsonWriter json, string name, string local, ShopClock clock)
    {
        if (clock.Read(local) is { } at)
        {
            json.WriteInstant(name, at);
        }
        else
        {
            StartForms.Given(json, name, local);
        }
    }

    private static Page<PlanPage> Show(Look look, IReadOnlyList<Sentence> faults, RefusedForm refused, int status) =>
        new(status, (nameof(PlanPage.View), PlanViews.Of(look, faults, refused)));
}
