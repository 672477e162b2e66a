using System.Collections.Immutable;
using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Mqtt;

/// <summary>Everything a shop publishes, by topic, as it stands at an instant.</summary>
internal static class OutputDocuments
{
    /// <summary>No more than somebody reads, in a message that stays small; of the others it is told how many there are. Source (choice).</summary>
    private const int MostPromises = 200;

    /// <summary>The warnings that stand, and what troubles the program itself.</summary>
    public static Dictionary<string, OutputDocument> Warnings(Shop shop, IEnumerable<Trouble> troubles)
    {
        var topics = new Topics(shop.Plan.Shop);
        var documents = new Dictionary<string, OutputDocument>(StringComparer.Ordinal);
        foreach (int number in shop.Standing.Values)
        {
            Warning warning = shop.Warnings[number];
            string bay = BayOf(shop, warning);
            documents[topics.Warning(bay, number)] = Of(warning, bay);
        }

        foreach (Trouble trouble in troubles)
        {
            documents[topics.Trouble(WireName<WarningKind>.Of(trouble.Kind))] = OutputDocument.Of(_ => { }, json => TroubleJson.Write(json, trouble));
        }

        return documents;
    }

    /// <summary>That the shop is online, and the climate of every bay whose air is heard.</summary>
    public static Dictionary<string, OutputDocument> Climates(Shop shop) =>
        Wanted(shop.Plan.Bays.SelectMany(b => OfBay(shop, b.Bay)).Prepend((new Topics(shop.Plan.Shop).Status, OutputDocument.Of(Topics.Online))));

    /// <summary>What is published of every car that is here.</summary>
    public static Dictionary<string, OutputDocument> Cars(Shop shop)
    {
        var queues = new BayQueues(shop);
        return Wanted(shop.JobsInOrder.Where(j => j.LeftAt is null).SelectMany(j => OfCar(shop, j.Job.Id, queues)));
    }

    /// <summary>The day plan of every bay, and the cars by how much their promise is at risk.</summary>
    public static Dictionary<string, OutputDocument> Plans(Shop shop)
    {
        var topics = new Topics(shop.Plan.Shop);
        var queues = new BayQueues(shop);
        DayPlan plan = DayPlan.Of(shop, queues);
        var words = new PlanWords(plan);
        var documents = plan.Bays.ToDictionary(
            b => topics.Plan(b.Bay),
            b => OutputDocument.Of(json => json.WriteInstant("at", plan.At), json => new PlanJson(json, words, namesPeople: false).Write(b)),
            StringComparer.Ordinal);
        documents[topics.Promises] = Promises(shop, queues);
        return documents;
    }

    /// <summary>The climate of a bay; none where its air is not heard.</summary>
    public static IEnumerable<(string Topic, OutputDocument? Document)> OfBay(Shop shop, string bay)
    {
        AirReport? air = shop.Bays.Find(bay) is not null ? AirReport.Of(shop, bay) : null;
        yield return (
            new Topics(shop.Plan.Shop).Climate(bay),
            air is { Climate: { } climate, MeasuredAt: { } at } ? Of(climate, at, air.Doubt) : null);
    }

    /// <summary>What to know at lock-up and in the morning, of every bay and of the shop.</summary>
    public static Dictionary<string, OutputDocument> Nights(Shop shop)
    {
        var topics = new Topics(shop.Plan.Shop);
        TonightReport[] tonight = [.. TonightReport.Of(shop)];
        MorningReport[] morning = [.. MorningReport.Of(shop)];
        return Wanted(
        [
            (topics.ShopTonight, Night(shop, json => NightJson.WriteTonight(json, tonight))),
            (topics.ShopMorning, Night(shop, json => NightJson.WriteMorning(json, morning))),
            .. tonight.Select(t => (topics.Tonight(t.Bay), (OutputDocument?)Night(shop, json => NightJson.WriteTonight(json, t)))),
            .. morning.Select(m => (topics.Morning(m.Bay), (OutputDocument?)Night(shop, json => NightJson.WriteMorning(json, m)))),
        ]);
    }

    /// <summary>The windows of a car, its handover, whether it can be coated now, and its promise; none where it has left.</summary>
    public static IEnumerable<(string Topic, OutputDocument? Document)> OfCar(Shop shop, string job, BayQueues queues)
    {
        var topics = new Topics(shop.Plan.Shop);
        JobReport? report = shop.Find(job) is { LeftAt: null } ? JobReport.Of(shop, job, queues) : null;
        yield return (topics.Windows(job), report is null ? null : Windows(report));
        yield return (topics.Handover(job), report is null ? null : Handover(report));
        yield return (topics.Start(job), report is null ? null : Start(StartReport.Of(shop, job, queues: queues)));
        yield return (topics.Promise(job), report?.Promise is { } promise ? Promise(promise) : null);
    }

    private static Dictionary<string, OutputDocument> Wanted(IEnumerable<(string Topic, OutputDocument? Document)> documents) =>
        documents.Where(d => d.Document is not null).ToDictionary(d => d.Topic, d => d.Document!, StringComparer.Ordinal);

    private static OutputDocument Of(BayClimate climate, DateTimeOffset at, SpreadDoubt? doubt) => OutputDocument.Of(
        _ => { },
        json =>
        {
            json.WriteInstant("at", at);
            ClimateJson.WriteKeys(json, climate, climate.Judge(SheetLimits.UsualSpreadMinK), doubt);
        });

    private static OutputDocument Night(Shop shop, Action<Utf8JsonWriter> body) => OutputDocument.Of(json => json.WriteInstant("at", shop.Now), body);

    private static OutputDocument Windows(JobReport report) => OutputDocument.Of(
        json => json.WriteInstant("at", report.At),
        json => WindowsJson.WriteBody(json, report));

    private static OutputDocument Handover(JobReport report) => OutputDocument.Of(
        json => json.WriteInstant("at", report.At),
        json =>
        {
            json.WriteString("job", report.Job.Id);
            JobJson.WriteRuling(json, report.Ruling);
        });

    private static OutputDocument Start(StartReport report) => OutputDocument.Of(
        json => json.WriteInstant("at", report.Decision.Day.Now),
        json => StartJson.WriteBody(json, report));

    private static OutputDocument Promise(PromiseReport report) => OutputDocument.Of(
        json => json.WriteInstant("at", report.At),
        json =>
        {
            json.WriteString("job", report.Job);
            PromiseJson.WriteBody(json, report);
        });

    private static OutputDocument Promises(Shop shop, BayQueues queues)
    {
        ImmutableArray<PromiseReport> ranked = PromiseRanking.Of(PromiseReport.OfAll(shop, queues));
        return OutputDocument.Of(
            json => json.WriteInstant("at", shop.Now),
            json =>
            {
                json.WriteArray("promises", ranked.Take(MostPromises), p => PromiseJson.WriteRanked(json, p));
                json.WriteWhole("leftOff", ranked.Length > MostPromises ? ranked.Length - MostPromises : null);
            });
    }

    private static OutputDocument Of(Warning warning, string bay) => OutputDocument.Of(
        _ => { },
        json =>
        {
            Subject subject = warning.Subject;
            AlarmRule rule = AlarmRule.Of(subject.Kind);
            json.WriteString("kind", WireName<WarningKind>.Of(subject.Kind));
            json.WriteString("bay", bay);
            json.WriteString("probe", subject.Probe);
            json.WriteString("job", subject.Job);
            json.WriteString("surface", warning.Surface);
            json.WriteWhole("layer", subject.Layer > 0 ? subject.Layer : null);
            json.WriteWhole("section", subject.Section > 0 ? subject.Section : null);
            json.WriteInstant("raisedAt", warning.RaisedAt);
            json.WriteRounded("leadMinutes", warning.Lead?.TotalMinutes);
            WarningJson.WriteRule(json, rule, warning.Detail ?? rule.Cause);
            json.WriteString("caution", Cautions.Beside(subject));
            json.WriteBoolean("wakes", warning.Wakes);
        });

    /// <summary>The bay a warning is about; of one about a coat, the bay its surface was in, so that its topic stays when the car moves on.</summary>
    private static string BayOf(Shop shop, Warning warning)
    {
        Subject subject = warning.Subject;
        if (subject.Bay is { } bay)
        {
            return bay;
        }

        JobState job = shop.Find(subject.Job!)!;
        return job.Stories.FirstOrDefault(s => s.Surface.Id == subject.Surface) is { } story
            ? Stay.Of(shop, job.Job, story).Last(s => s.From <= warning.RaisedAt).Bay ?? job.Job.Bay
            : job.Job.Bay;
    }
}
