using System.Text.Json;
using CureWatch.Service.Book;
using CureWatch.Service.Documents;
using CureWatch.Service.People;

namespace CureWatch.Service.Api;

/// <summary>What is over: warnings, and cars that left. Newest first, by the page.</summary>
internal static class PastEndpoints
{
    /// <summary>As many as somebody reads at once. Source (choice).</summary>
    private const int Page = 100;

    private const int MostOnAPage = 500;

    private const string From = "from", To = "to", Before = "before", Most = "most";

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/warnings/past", Warnings).LetsScreens().WithSummary("The warnings that are over, the newest first")
            .Gives("past-warnings", "A page of them.")
            .Asks(From, Ask.Instant, "Only those that stood at this instant or later.")
            .Asks(To, Ask.Instant, "Only those that stood at this instant or earlier.")
            .AsksForAPage(Page, MostOnAPage)
            .AsksTheBook();
        api.MapGet("/handovers", Handovers).LetsScreens().WithSummary("The cars that left, the newest first")
            .Gives("handovers", "A page of them.").AsksForAPage(Page, MostOnAPage).AsksTheBook();
        api.MapGet("/handovers/{job}", Handover).LetsScreens().WithSummary("How a car that left stood at its handover, in the shape of replay --json")
            .Gives("left", "The car.")
            .Refuses(StatusCodes.Status404NotFound, "No such job, or its car is still here.")
            .AsksTheBook();
    }

    private static async Task<IResult> Warnings(HttpContext context, Lookout lookout, Past past)
    {
        var asked = new Parameters(context.Request, From, To, Before, Most);
        DateTimeOffset from = asked.Instant(From) ?? DateTimeOffset.MinValue, to = asked.Instant(To) ?? DateTimeOffset.MaxValue;
        (int? before, int most) = (asked.Whole(Before, 0, int.MaxValue), asked.Whole(Most, 1, MostOnAPage) ?? Page);
        asked.InOrder(From, from, To, to);
        return asked.Problem ?? (lookout.Now() is not { } look
            ? Problem.NoShopYet()
            : await past.AskAsync(
                book => book.PastWarnings(from, to, before, most + 1),
                (found, through) => JsonAnswer.Object(json =>
                {
                    json.WriteInstant("at", look.At);
                    through.Write(json);
                    json.WriteArray("warnings", found.Take(most), w => WarningJson.Write(json, w.Number, w.Warning));
                    WriteNext(json, found.Count > most ? found[most - 1].Number : null);
                }),
                context.RequestAborted));
    }

    private static async Task<IResult> Handovers(HttpContext context, Lookout lookout, Past past)
    {
        var asked = new Parameters(context.Request, Before, Most);
        (long? before, int most) = (asked.Before(Before), asked.Whole(Most, 1, MostOnAPage) ?? Page);
        return asked.Problem ?? (lookout.Now() is not { } look
            ? Problem.NoShopYet()
            : await past.AskAsync(
                book => book.Left(before, most + 1),
                (found, through) => JsonAnswer.Object(json =>
                {
                    json.WriteInstant("at", look.At);
                    through.Write(json);
                    json.WriteArray("handovers", found.Take(most), j => WriteLeft(json, look, j, j.Left!));
                    WriteNext(json, found.Count > most ? found[most - 1].Left!.Number : null);
                }),
                context.RequestAborted));
    }

    private static async Task<IResult> Handover(string job, HttpContext context, Lookout lookout, Past past)
    {
        if (new Parameters(context.Request).Problem is { } problem)
        {
            return problem;
        }

        if (lookout.Now() is not { } look)
        {
            return Problem.NoShopYet();
        }

        if (look.Register.Jobs.GetValueOrDefault(job) is not { } marks || marks.HandedOver is not { } left)
        {
            return Problem.Of(
                StatusCodes.Status404NotFound,
                look.Shop.Find(job) is not null ? $"The car of job '{job}' is still here."
                : look.Register.Jobs.ContainsKey(job) ? $"The car of job '{job}' did not come: its visit was cancelled."
                : $"No job '{job}'.");
        }

        return await past.AskAsync(
            book => (Record: book.HandoverRecord(job), Taps: book.TapsOf(job)),
            (found, through) => JsonAnswer.Object(json =>
            {
                through.Write(json);
                json.WriteString("job", job);
                json.WriteString("car", marks.Car);
                json.WriteInstant("leftAt", left.At);
                json.WriteString("by", left.By);
                json.WriteString("despite", left.Despite);
                json.WriteBoolean("asItLeft", found.Record is not null);
                json.WritePropertyName("document");
                WriteDocument(json, look, job, found.Record);
                json.WriteArray("taps", found.Taps, t => CarJson.WriteTap(json, t.Tap));
            }),
            context.RequestAborted);
    }

    /// <summary>The record as the book has it; where the book is behind by that much, how the job stands, as long as the shop has it.</summary>
    private static void WriteDocument(Utf8JsonWriter json, Look look, string job, string? record)
    {
        if (record is not null)
        {
            json.WriteRawValue(record);
        }
        else if (look.Shop.Find(job) is { } state)
        {
            ReplayJson.Write(json, look.ReportOf(state), look.Shop.Tally);
        }
        else
        {
            json.WriteNullValue();
        }
    }

    /// <summary>The book has no name that names a person; the car's is in the state.</summary>
    private static void WriteLeft(Utf8JsonWriter json, Look look, BookedJob job, BookedDeparture left)
    {
        json.WriteString("job", job.Id);
        json.WriteString("car", look.Register.Jobs.GetValueOrDefault(job.Id)?.Car);
        json.WriteString("bay", job.Bay);
        json.WriteInstant("startedAt", job.StartedAt);
        json.WriteInstant("promisedAt", job.PromisedAt);
        json.WriteInstant("leftAt", left.At);
        json.WriteBoolean("wasHeld", left.WasHeld);
    }

    private static void WriteNext(Utf8JsonWriter json, long? next)
    {
        if (next is { } number)
        {
            json.WriteNumber("next", number);
        }
        else
        {
            json.WriteNull("next");
        }
    }
}
