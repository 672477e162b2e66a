using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Reports;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Settings;
using CureWatch.Service.Tongues;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>The page that says what would follow if something were otherwise.</summary>
internal static class WhatIfPages
{
    private const string Temperature = "temperatureC";

    private static readonly string[] Numbers = [Temperature, "humidityPct", "lampMinutes"], Instants = ["startAt", "promisedAt"], Names = ["surface", "product"];

    public static void Map(IEndpointRouteBuilder app) => app.MapGet(
        "/jobs/{job}/what-if", (string job, HttpRequest request, Lookout lookout) => BoardEndpoints.With(lookout, look => Show(look, job, request.Query)))
        .ExcludeFromDescription().LetsScreens();

    private static IResult Show(Look look, string id, IQueryCollection asked)
    {
        if (look.Shop.Find(id) is not { LeftAt: null } job)
        {
            return BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"No such car", $"No car of a job '{id}' is here.");
        }

        var faults = new Faults();
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        Hypothesis? hypothesis = WhatIfQuestion.Read("form", Question(asked, clock), look.Shop, job, faults);
        Sentence[] wrong = [.. faults.All.Select(f => BoardForms.Of(f))];
        return new Page<WhatIfPage>(
            wrong.Length == 0 ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest,
            (nameof(WhatIfPage.Shop), look.Shop.Plan.Shop),
            (nameof(WhatIfPage.Job), id),
            (nameof(WhatIfPage.Name), job.Job.Car ?? id),
            (nameof(WhatIfPage.Faults), wrong),
            (nameof(WhatIfPage.View), wrong.Length == 0 ? Of(WhatIf.Of(look.Shop, id, hypothesis!), look.ReportOf(job), clock) : null));
    }

    /// <summary>The JSON that the form stands for; what is no number is left as it stands, so that it is refused by name.</summary>
    private static ReadOnlyMemory<byte> Question(IQueryCollection asked, ShopClock clock) => JsonAnswer.Utf8Of(json =>
    {
        json.WriteStartObject();
        foreach (string name in Numbers)
        {
            bool isFahrenheit = name == Temperature && asked["unit"] == TongueOfRequest.FahrenheitSign;
            TypedNumber.Write(json, isFahrenheit ? "temperatureF" : name, asked[name].ToString());
        }

        foreach (string name in Instants)
        {
            string text = asked[name].ToString().Trim();
            StartForms.Given(json, name, clock.Read(text) is { } instant ? UtcText.Of(instant) : text);
        }

        foreach (string name in Names)
        {
            StartForms.Given(json, name, asked[name].ToString().Trim());
        }

        json.WriteEndObject();
    });

    private static WhatIfView Of(WhatIf whatIf, JobReport asItIs, ShopClock clock)
    {
        PromiseReport then = whatIf.Report.Promise!, now = asItIs.Promise!;
        var words = new WindowWords(clock);
        return new WhatIfView(
            $"Collect from {Said(clock.Of(then.Outlook.CollectFrom))}; as it is, {Said(clock.Of(now.Outlook.CollectFrom))}",
            ChanceOf(then.Outlook, clock),
            whatIf.Air?.Text,
            whatIf.Beyond,
            [.. whatIf.Report.Surfaces.SelectMany(s => s.Coats).Select(words.Of)],
            [.. whatIf.Planned.Select(p => clock.Of(p.ReadyAt.Latest) is { } ready ? (Sentence)$"{p.Name}: ready {ready.Text} at the latest" : $"{p.Name}: ready at no time anybody can tell")],
            [.. Cautions.Beside(whatIf.Hypothesis)]);
    }

    private static Sentence? ChanceOf(PromiseOutlook outlook, ShopClock clock) => outlook switch
    {
        { PromisedAt: null } => null,
        { Standing: PromiseStanding.Missed } => $"{clock.Of(outlook.PromisedAt)!.Text} is past: it cannot be made any more",
        { ChanceOnceLifted: { } chance } => $"Chance to make {clock.Of(outlook.PromisedAt)!.Text}: {ChanceWords.Of(chance)}",
        { IsUnknown: true } => $"Chance to make {clock.Of(outlook.PromisedAt)!.Text}: not known",
        _ => null,
    };

    private static Sentence Said(Moment? moment) => moment?.Text ?? $"no time anybody can tell";
}

/// <summary>What would follow.</summary>
/// <param name="Collect">From when the car could be collected, then and as it is.</param>
/// <param name="Chance">The chance to make the promise; null without one.</param>
/// <param name="Air">The air that would be held, and how fast it would cure in it; null where none is held otherwise.</param>
/// <param name="Beyond">What of it is not allowed, or cannot be done.</param>
/// <param name="Coats">The coats that are on.</param>
/// <param name="Planned">Those still to go on.</param>
/// <param name="Cautions">What belongs beside it.</param>
public sealed record WhatIfView(
    Sentence Collect,
    Sentence? Chance,
    Sentence? Air,
    IReadOnlyList<Sentence> Beyond,
    IReadOnlyList<CoatView> Coats,
    IReadOnlyList<Sentence> Planned,
    IReadOnlyList<string> Cautions);
