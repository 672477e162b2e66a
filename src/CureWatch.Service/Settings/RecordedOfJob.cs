using CureWatch.Bays;
using CureWatch.Planning;

namespace CureWatch.Service.Settings;

/// <summary>The day of an exported job, as <c>export</c> writes it beside the taps.</summary>
internal static class RecordedOfJob
{
    public const string Key = "recorded";

    /// <summary>More cars than stand in a large shop in the days of one job. Source (choice).</summary>
    private const int MostBeside = 1_000;

    private const int MostEvents = 1_000_000, MostPlans = 100_000;

    /// <param name="place">Where it stands.</param>
    /// <param name="readJob">Reads the job of another car.</param>
    /// <returns>The day; null where it holds a fault.</returns>
    public static LivedDay? Read(JsonCursor place, Func<JsonCursor, JobRecord?> readJob)
    {
        if (!place.Keys(["openedAt", "beside", "order"], "endedAt", "works", "visits"))
        {
            return null;
        }

        DateTimeOffset? openedAt = place["openedAt"].Instant(), endedAt = place["endedAt"].Instant();
        JobRecord?[] beside = [.. place["beside"].Items(most: MostBeside).Select(readJob)];
        RecordedEvent?[] order = [.. place["order"].Items(most: MostEvents).Select(Event)];
        PlannedWork?[] works = [.. place["works"].Items(most: MostPlans).Select(Work)];
        Visit[] visits = [.. place["visits"].Items(most: MostPlans).Select(OneVisit)];
        return openedAt is null || beside.Contains(null) || order.Contains(null) || works.Contains(null)
            ? null
            : new LivedDay(openedAt.Value, [.. beside.Select(j => j!)], [.. order.Select(e => e!)])
            {
                EndedAt = endedAt,
                Works = [.. works.Select(w => w!)],
                Visits = [.. visits],
            };
    }

    /// <summary>Refuses an order that does not fit the jobs, once all else is as it should be: it follows from every other fault.</summary>
    /// <param name="place">Where the day stands.</param>
    /// <param name="asked">The exported job.</param>
    /// <remarks>
    /// Each job is begun once, under an id of its own, and each of its taps told once, after that: whoever changes the taps leaves the day out, and they are
    /// told by when they were reported.
    /// </remarks>
    public static void Check(JsonCursor place, JobRecord asked)
    {
        if (asked.Day is not { } day)
        {
            return;
        }

        JobRecord[] jobs = [asked, .. day.Beside];
        if (jobs.Select(j => j.Job.Id).Distinct(StringComparer.Ordinal).Count() < jobs.Length)
        {
            place["beside"].Refuse($"{day.Beside.Length} jobs", "jobs each with an id of its own");
            return;
        }

        new RecordedOrder(place, day, jobs).Check();
    }

    private static PlannedWork? Work(JsonCursor place)
    {
        _ = place.Keys(["id", "bay", "work", "from", "to"]);
        string? id = place["id"].Id(), bay = place["bay"].Id();
        HarmfulWork? work = place["work"].OneOf<HarmfulWork>();
        DateTimeOffset? from = place["from"].Instant(), to = place["to"].Instant();
        if (to <= from)
        {
            place["to"].Refuse("after from");
        }

        return id is null || bay is null || work is null || from is null || to is null ? null : new PlannedWork(id, bay, work.Value, from.Value, to.Value, null, null);
    }

    private static Visit OneVisit(JsonCursor place)
    {
        _ = place.Keys([], VisitOfJob.Keys);
        return VisitOfJob.Read(place) ?? new Visit(null, null, null);
    }

    private static RecordedEvent? Event(JsonCursor place)
    {
        _ = place.Keys(["readings", "now", "at", "did", "job"], "tap", "plan");
        int? readings = place["readings"].Integer(0, int.MaxValue), job = place["job"].Integer(0, MostBeside), tap = place["tap"].Integer(0, int.MaxValue);
        DateTimeOffset? now = place["now"].Instant(), at = place["at"].Instant();
        Recorded? did = place["did"].OneOf<Recorded>();
        return readings is null || now is null || at is null || did is null || job is null
            ? null
            : new RecordedEvent(readings.Value, now.Value, at.Value, did.Value, job.Value, tap) { Plan = place["plan"].Integer(0, int.MaxValue) };
    }
}
