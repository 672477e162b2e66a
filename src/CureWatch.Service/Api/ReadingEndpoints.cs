using CureWatch.Reports;
using CureWatch.Service.Book;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Api;

/// <summary>What a probe told, looked up; and what became of all readings.</summary>
internal static class ReadingEndpoints
{
    /// <summary>A day of a probe that reports each five seconds, and a megabyte and a half. Source (choice).</summary>
    private const int MostReadings = 20_000;

    private const string From = "from", To = "to", Most = "most";

    private static readonly TimeSpan Usual = TimeSpan.FromDays(1);

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/readings", Counts).LetsScreens()
            .WithSummary("How many readings were believed, and how many refused, by reason and probe; and which probes are believed now")
            .Gives("readings", "The counts.");
        api.MapGet("/bays/{bay}/probes/{probe}/readings", OfProbe).LetsScreens()
            .WithSummary("The readings of a probe that were believed, as it told them, in the order they were measured")
            .Gives("probe-readings", "A page of them.")
            .Refuses(StatusCodes.Status404NotFound, "No such probe, now or ever.")
            .Asks(From, Ask.Instant, "The first instant; a day before the last one where left out. For the page after one, its 'next'.")
            .Asks(To, Ask.Instant, "The last instant; now where left out.")
            .Asks(Most, Ask.Whole, $"How many at most: 1 to {MostReadings}, which is what it is where left out.")
            .AsksTheBook();
    }

    private static IResult Counts(Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            json.WriteNumber("accepted", look.Shop.Tally.Accepted);
            json.WriteArray("refused", look.Register.Refusals, r =>
            {
                json.WriteString("reason", r.Key.Reason);
                json.WriteString("place", r.Key.Place);
                json.WriteNumber("count", r.Value);
            });
            json.WriteArray("probes", look.Shop.Plan.Bays.SelectMany(b => BayReport.Of(look.Shop, b.Bay).Probes.Select(p => (b.Bay, Probe: p))), p =>
            {
                json.WriteString("place", $"{p.Bay}/{p.Probe.Mount.Probe.Id}");
                json.WriteString("state", WireName<ProbeState>.Of(p.Probe.State));
                BayJson.WriteBelief(json, p.Probe);
            });
        });

    private static async Task<IResult> OfProbe(string bay, string probe, HttpContext context, Lookout lookout, Past past)
    {
        if (lookout.Now() is not { } look)
        {
            return Problem.NoShopYet();
        }

        var asked = new Parameters(context.Request, From, To, Most);
        DateTimeOffset to = asked.Instant(To) ?? look.At, from = asked.Instant(From) ?? to - Usual;
        int most = asked.Whole(Most, 1, MostReadings) ?? MostReadings;
        asked.InOrder(From, from, To, to);
        bool isThere = look.Shop.Plan.Bays.Any(b => b.Bay == bay && b.Probes.Any(p => p.Probe.Id == probe));
        return asked.Problem ?? (!Ids.Allows(bay) || !Ids.Allows(probe)
            ? NoProbe(bay, probe)
            : await past.AskAsync(
                book => (WasThere: book.HasHeard(bay, probe), Readings: book.ReadingsOf(bay, probe, from, to, most + 1)),
                (found, through) => isThere || found.WasThere || !through.IsComplete
                    ? Answer(bay, probe, (from, to, most), found.Readings, through)
                    : NoProbe(bay, probe),
                context.RequestAborted));
    }

    private static JsonAnswer Answer(
        string bay, string probe, (DateTimeOffset From, DateTimeOffset To, int Most) asked, IReadOnlyList<BookedReading> found, Through through) =>
        JsonAnswer.Object(json =>
        {
            through.Write(json);
            json.WriteString("bay", bay);
            json.WriteString("probe", probe);
            json.WriteInstant("from", asked.From);
            json.WriteInstant("to", asked.To);
            json.WriteArray("readings", found.Take(asked.Most), r =>
            {
                json.WriteInstant("at", r.At);
                json.WriteRounded("temperatureC", r.TemperatureC);
                json.WriteRounded("humidityPct", r.HumidityPct);
            });
            json.WriteInstant("next", found.Count > asked.Most ? found[asked.Most].At : null);
        });

    private static IResult NoProbe(string bay, string probe) => Problem.Of(StatusCodes.Status404NotFound, $"No probe '{probe}' in bay '{bay}'.");
}
