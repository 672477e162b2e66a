using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;

namespace CureWatch.Service.Settings;

/// <summary>A job and its taps as people write them.</summary>
internal static class JobFile
{
    private const int LongestCar = 200;

    /// <returns>The job, or null where the file holds a fault or does not fit the configuration.</returns>
    public static JobRecord? Read(string path, Configuration configuration, Faults faults)
    {
        int before = faults.Count;
        return JsonFile.Open(path, faults) is { } top && Record(top, configuration) is { } record && faults.Count == before ? record : null;
    }

    /// <summary>Reads a document that is already here.</summary>
    public static JobRecord? Parse(string name, ReadOnlySpan<byte> utf8, Configuration configuration, Faults faults)
    {
        int before = faults.Count;
        return JsonFile.Parse(name, utf8, faults) is { } top && Record(top, configuration) is { } record && faults.Count == before ? record : null;
    }

    private static JobRecord? Record(JsonCursor top, Configuration configuration)
    {
        if (!top.Keys(["job", "bay", "surfaces"], "car", "promisedAt", "taps"))
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
        ImmutableArray<Tap> taps = TapsOfJob.Read(top["taps"], surfaceIds, bays);
        return job is null || bay is null ? null : new JobRecord(new Job(job, bay, car, promisedAt, surfaces), taps);
    }
}
