using System.Collections.Immutable;
using CureWatch.Bays;

namespace CureWatch.Service.Mqtt;

/// <summary>Which cars' surfaces are in which bay, so that a reading touches no other.</summary>
internal sealed class CarsByBay
{
    private readonly ImmutableDictionary<string, JobState> _jobs;
    private readonly ILookup<string, string> _byBay;

    private CarsByBay(ImmutableDictionary<string, JobState> jobs, IReadOnlyList<(string Bay, string Job)> places)
    {
        _jobs = jobs;
        _byBay = places.ToLookup(p => p.Bay, p => p.Job, StringComparer.Ordinal);
        All = [.. jobs.Values.Where(j => j.LeftAt is null).Select(j => j.Job.Id)];
    }

    public static CarsByBay None { get; } = new(ImmutableDictionary<string, JobState>.Empty, []);

    /// <summary>The cars that are here.</summary>
    public ImmutableArray<string> All { get; }

    public IEnumerable<string> In(string bay) => _byBay[bay];

    /// <returns>This one where nothing about any car has changed, else another.</returns>
    public CarsByBay Of(Shop shop) => ReferenceEquals(shop.Jobs, _jobs)
        ? this
        : new CarsByBay(shop.Jobs, [.. shop.Jobs.Values.Where(j => j.LeftAt is null).SelectMany(j => PlacesOf(shop, j))]);

    /// <summary>Where its surfaces were counts too: what they were through there may still be settled.</summary>
    private static IEnumerable<(string Bay, string Job)> PlacesOf(Shop shop, JobState job) =>
        job.Stories.SelectMany(s => Stay.Of(shop, job.Job, s)).Select(s => s.Bay).OfType<string>().Distinct().Select(b => (b, job.Job.Id));
}
