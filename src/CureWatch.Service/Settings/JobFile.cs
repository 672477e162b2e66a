using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;

namespace CureWatch.Service.Settings;

/// <summary>A job and its taps as people write them.</summary>
internal static class JobFile
{
    private const int LongestCar = 200;

    private static readonly string[] Optional = ["car", "promisedAt", .. VisitOfJob.Keys, "taps"];

    /// <summary>Reads a job that is to be lived through again, which may tell what its coats were begun with.</summary>
    /// <returns>The job, or null where the file holds a fault or does not fit the configuration.</returns>
    public static JobRecord? Read(string path, Configuration configuration, Faults faults)
    {
        int before = faults.Count;
        if (JsonFile.Open(path, faults) is not { } top
            || Record(top, configuration, [.. Optional, LearntOfJob.Key, RecordedOfJob.Key]) is not { } record
            || faults.Count > before)
        {
            return null;
        }

        RecordedOfJob.Check(top[RecordedOfJob.Key], record);
        return faults.Count == before ? record : null;
    }

    /// <summary>Reads the document of a job that is to begin: what is known of its products, the shop knows better.</summary>
    public static JobRecord? Parse(string name, ReadOnlySpan<byte> utf8, Configuration configuration, Faults faults)
    {
        int before = faults.Count;
        return JsonFile.Parse(name, utf8, faults) is { } top && Record(top, configuration, Optional) is { } record && faults.Count == before ? record : null;
    }

    private static JobRecord? Record(JsonCursor top, Configuration configuration, string[] optional)
    {
        if (!top.Keys(["job", "bay", "surfaces"], optional))
        {
            return null;
        }

        string[] bays = [.. configuration.Shop.Plan.Bays.Select(b => b.Bay)];
        string? job = top["job"].Id();
        string? bay = top["bay"].String(bays.Contains, $"a bay of the shop: {string.Join(", ", bays)}");
        string? car = top["car"].Text(LongestCar);
        DateTimeOffset? promisedAt = top["promisedAt"].Instant();
        var surfaceIds = new HashSet<string>(StringComparer.Ordinal);
        ImmutableArray<Surface> surfaces = SurfacesOfJob.Read(top["surfaces"], configuration.Catalogue, surfaceIds);
        ImmutableArray<Tap> taps = TapsOfJob.Read(top["taps"], new TappedSurfaces(surfaceIds, surfaces), bays);
        Visit? visit = VisitOfJob.Read(top);
        return job is null || bay is null ? null : new JobRecord(new Job(job, bay, car, promisedAt, surfaces) { Visit = visit }, taps)
        {
            Begun = optional.Contains(LearntOfJob.Key) && !top[LearntOfJob.Key].IsAbsent ? LearntOfJob.Read(top[LearntOfJob.Key], job, surfaces) : null,
            Day = optional.Contains(RecordedOfJob.Key) ? RecordedOfJob.Read(top[RecordedOfJob.Key], other => Record(other, configuration, Optional)) : null,
        };
    }
}
