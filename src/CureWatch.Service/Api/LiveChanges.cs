using System.Net.ServerSentEvents;
using System.Text;
using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>What changed between two states, as events: each carries the whole document it is named after, so that a lost one does no harm.</summary>
internal static class LiveChanges
{
    public const string Clock = "clock", Climate = "climate", Windows = "windows", Handover = "handover", Warning = "warning", Cancelled = "cancelled", Troubles = "troubles";

    /// <summary>What time it is here; sent every few seconds, so that silence is known for what it is.</summary>
    public static SseItem<string> ClockAt(DateTimeOffset at) => Item(Clock, json => json.WriteInstant("at", at));

    /// <summary>What keeps the program itself from its work: all of it, or an empty list where nothing does.</summary>
    public static SseItem<string> TroublesOf(IEnumerable<Trouble> standing) => Item(Troubles, json => TroubleJson.WriteAll(json, standing));

    /// <param name="before">What was told last; null to tell everything.</param>
    /// <param name="look">The shop now.</param>
    public static IEnumerable<SseItem<string>> Between(Register? before, Look look)
    {
        Shop after = look.Register.Shop!;
        HashSet<string> bays = [.. look.Shop.Plan.Bays.Select(b => b.Bay).Where(b => !ReferenceEquals(before?.Shop?.Bays.Find(b), after.Bays.Find(b)))];
        yield return ClockAt(look.At);
        foreach (string bay in bays)
        {
            yield return Item(Climate, json => WriteClimate(json, BayReport.Of(look.Shop, bay)));
        }

        foreach (JobState job in look.Shop.JobsInOrder)
        {
            JobState? was = before?.Shop?.Find(job.Job.Id), isNow = after.Find(job.Job.Id);
            if (!ReferenceEquals(was, isNow) ? before is not null || job.LeftAt is null : job.LeftAt is null && look.BaysOf(job).Any(bays.Contains))
            {
                JobReport report = look.ReportOf(job);
                yield return Item(Windows, json => WindowsJson.Write(json, report));
                yield return Item(Handover, json => CarJson.WriteHandover(json, report, look.Register.Jobs.GetValueOrDefault(job.Job.Id)));
            }
        }

        foreach (JobState gone in (before?.Shop?.JobsInOrder ?? []).Where(j => j.LeftAt is null && after.Find(j.Job.Id) is null))
        {
            yield return Item(Cancelled, json => json.WriteString("job", gone.Job.Id));
        }

        foreach (int number in WarningsToTell(before?.Shop, after))
        {
            yield return Item(Warning, json => WarningJson.Write(json, number, after.Warnings[number]));
        }
    }

    /// <summary>Those that are new since, and those that are over or say something else since; where nothing was told, those that stand.</summary>
    private static IEnumerable<int> WarningsToTell(Shop? before, Shop after) => before is null
        ? after.Standing.Values.Order()
        : before.Standing.Values.Concat(Enumerable.Range(before.WarningsGiven, after.WarningsGiven - before.WarningsGiven)).Order()
            .Where(n => after.Warnings.TryGetValue(n, out Warnings.Warning? warning) && !ReferenceEquals(before.Warnings.GetValueOrDefault(n), warning));

    private static void WriteClimate(Utf8JsonWriter json, BayReport bay)
    {
        json.WriteString("bay", bay.Plan.Bay);
        BayJson.WriteClimateOrNull(json, bay.Airs[0]);
    }

    private static SseItem<string> Item(string kind, Action<Utf8JsonWriter> write) => new(
        Encoding.UTF8.GetString(JsonAnswer.Utf8Of(json =>
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }).Span),
        kind);
}
