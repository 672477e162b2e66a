using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>The day of an exported job, as <c>export</c> writes it beside the taps.</summary>
internal static class RecordedOfJob
{
    public const string Key = "recorded";

    /// <summary>More cars than stand in a large shop in the days of one job. Source (choice).</summary>
    private const int MostBeside = 1_000;

    private const int MostEvents = 1_000_000;

    /// <param name="place">Where it stands.</param>
    /// <param name="taps">How many taps the job has.</param>
    /// <param name="readJob">Reads the job of another car.</param>
    /// <returns>The day; null where it holds a fault.</returns>
    public static LivedDay? Read(JsonCursor place, int taps, Func<JsonCursor, JobRecord?> readJob)
    {
        if (!place.Keys(["openedAt", "beside", "order"]))
        {
            return null;
        }

        DateTimeOffset? openedAt = place["openedAt"].Instant();
        JobRecord?[] beside = [.. place["beside"].Items(most: MostBeside).Select(readJob)];
        RecordedEvent?[] order = [.. place["order"].Items(most: MostEvents).Select(Event)];
        if (openedAt is null || beside.Contains(null) || order.Contains(null))
        {
            return null;
        }

        var day = new LivedDay(openedAt.Value, [.. beside.Select(j => j!)], [.. order.Select(e => e!)]);
        Check(place["order"], day, taps);
        return day;
    }

    private static RecordedEvent? Event(JsonCursor place)
    {
        _ = place.Keys(["readings", "now", "at", "did", "job"], "tap");
        int? readings = place["readings"].Integer(0, int.MaxValue), job = place["job"].Integer(0, MostBeside), tap = place["tap"].Integer(0, int.MaxValue);
        DateTimeOffset? now = place["now"].Instant(), at = place["at"].Instant();
        Recorded? did = place["did"].OneOf<Recorded>();
        return readings is null || now is null || at is null || did is null || job is null
            ? null
            : new RecordedEvent(readings.Value, now.Value, at.Value, did.Value, job.Value, tap);
    }

    /// <summary>Each job is begun once and each tap told once: whoever changes the taps leaves the day out, and they are told by when they were reported.</summary>
    private static void Check(JsonCursor order, LivedDay day, int taps)
    {
        int[] told = [taps, .. day.Beside.Select(j => j.Taps.Length)];
        HashSet<(Recorded, int, int?)> expected =
        [
            .. told.SelectMany((count, job) => Enumerable.Range(0, count).Select(tap => (Recorded.Told, job, (int?)tap)).Append((Recorded.Begun, job, null))),
        ];
        bool fits = day.Order.All(e => e.Did switch
        {
            Recorded.Left => e.Job < told.Length,
            _ => expected.Remove((e.Did, e.Job, e.Tap)),
        });
        if (!fits || expected.Count > 0)
        {
            order.Refuse($"{day.Order.Length} entries", "each job begun once and each of its taps told once; or no 'recorded' at all");
        }
    }
}
