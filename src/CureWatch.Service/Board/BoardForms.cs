using System.Diagnostics;
using System.Globalization;
using CureWatch.Service.Api;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>
/// The forms. Each becomes the arrival a script would send, and answers with a redirect, so that a reload sends nothing again. They carry no
/// antiforgery token: <see cref="OriginRule"/> says what guards them.
/// </summary>
internal static class BoardForms
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost("/start", Start).ExcludeFromDescription().LetsTechnicians();
        app.MapPost("/jobs/{job}/taps", Tap).ExcludeFromDescription().LetsTechnicians();
        app.MapPost("/jobs/{job}/handover", HandOver).ExcludeFromDescription().LetsTechnicians();
    }

    private static async Task<IResult> Start(HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (await FormAsync(context) is not { } form || lookout.Now() is not { } look)
        {
            return NoForm();
        }

        StartForm filled = StartForms.Read(form);
        if (form.ContainsKey("more"))
        {
            IEnumerable<StartRow> more = Enumerable.Repeat(StartRow.Blank, Math.Min(StartForms.UsualRows, StartForms.MostRows - filled.Rows.Count));
            return BoardEndpoints.Start(StartForms.View(look, filled with { Rows = [.. filled.Rows, .. more] }, []));
        }

        (string job, IReadOnlyList<Sentence> faults) = await StartAsync(filled, form, look, context, inbox);
        return faults.Count == 0 ? SeeOther(context, $"/#car-{job}") : BoardEndpoints.Start(StartForms.View(lookout.Now() ?? look, filled, faults));
    }

    /// <summary>Starts the car of a form.</summary>
    /// <returns>The job, and what of the form cannot be used; nothing where the car was started.</returns>
    public static async Task<(string Job, IReadOnlyList<Sentence> Faults)> StartAsync(StartForm filled, IFormCollection form, Look look, HttpContext context, Inbox inbox)
    {
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        DateTimeOffset? promisedAt = clock.Read(filled.Promised);
        _ = int.TryParse(form["number"], NumberStyles.None, CultureInfo.InvariantCulture, out int jobNumber);
        string id = StartForms.IdOf(look, filled, jobNumber);
        if (filled.Promised.Length > 0 && promisedAt is null)
        {
            return (id, [$"Promised for: no time that the clocks in {clock.Zone.Id} show"]);
        }

        Answer answer = await inbox.AskAsync(new Arrival.JobStart("form", StartForms.JobFile(filled, id, promisedAt, clock)), context.RequestAborted);
        return (id, answer is Answer.Stored or Answer.Repeated ? [] : FaultWords.Of(answer, clock, [.. filled.Rows.Select(r => r.Surface).Where(s => !string.IsNullOrWhiteSpace(s))]));
    }

    private static async Task<IResult> Tap(string job, HttpContext context, Inbox inbox, Lookout lookout) =>
        await TapForms.TellAsync(job, context, inbox, lookout) is not { } told ? NoForm()
        : told.Faults.Count == 0 ? SeeOther(context, $"/#car-{job}")
        : BoardEndpoints.Job(told.Look, job, told.Faults, told.Status, RefusedForm.Of(RefusedForm.Tap, context.Request.Form));

    private static async Task<IResult> HandOver(string job, HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (await FormAsync(context) is not { } form || lookout.Now() is not { } look)
        {
            return NoForm();
        }

        var faults = new Faults();
        JsonCursor top = JsonFile.Parse("form", JsonAnswer.Utf8Of(json =>
        {
            json.WriteStartObject();
            StartForms.Given(json, "by", form["by"].ToString().Trim());
            StartForms.Given(json, "despite", form["despite"].ToString().Trim());
            json.WriteEndObject();
        }).Span, faults)!;
        (string? by, string? despite) = Departure.Read(top);
        Answer answer = faults.Count > 0
            ? new Answer.Refused([.. faults.All])
            : await inbox.AskAsync(new Arrival.HandOver(job, Visitor.Of(context).Name ?? by, despite), context.RequestAborted);
        return answer is Answer.Stored or Answer.Repeated
            ? SeeOther(context, "/")
            : BoardEndpoints.Job(lookout.Now() ?? look, job, FaultsOf(answer), StatusOf(answer), RefusedForm.Of(RefusedForm.HandOver, form));
    }

    public static async Task<IFormCollection?> FormAsync(HttpContext context)
    {
        try
        {
            return context.Request.HasFormContentType ? await context.Request.ReadFormAsync(context.RequestAborted) : null;
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }

    public static IResult NoForm() => BoardEndpoints.Plain(
        StatusCodes.Status400BadRequest, $"That was no form", $"Go back to the board and press the button again.");

    public static IResult SeeOther(HttpContext context, string where)
    {
        context.Response.Headers.Location = where;
        return Results.StatusCode(StatusCodes.Status303SeeOther);
    }

    public static Sentence Of(Fault fault, params IReadOnlyList<string> surfaces) =>
        $"{FieldWords.Of(fault.Place, surfaces)}: saw {BoardWords.Phrase(fault.Seen is "\"\"" ? "nothing" : fault.Seen)}; allowed: {fault.Words}";

    public static int StatusOf(Answer answer) => answer switch
    {
        Answer.Held or Answer.Unfit => StatusCodes.Status409Conflict,
        Answer.NotStored => StatusCodes.Status503ServiceUnavailable,
        _ => StatusCodes.Status400BadRequest,
    };

    public static IReadOnlyList<Sentence> FaultsOf(Answer answer) => answer switch
    {
        Answer.Refused a => [.. a.Faults.Select(f => Of(f))],
        Answer.NoSuchJob a => [$"No job '{a.Job}'."],
        Answer.Held a => [.. a.Holds.Select(h => (Sentence)$"{BoardWords.Coat(h.Surface, h.Layer, h.Section)}: {h.Text}")],
        Answer.Unfit a => [a.Why],
        Answer.NotStored a => [$"It could not be stored. Write it down, then press the button again. {BoardWords.Phrase(a.Why)}"],
        _ => throw new UnreachableException(answer.GetType().Name),
    };
}
