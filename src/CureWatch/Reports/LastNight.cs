using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Warnings;

namespace CureWatch.Reports;

/// <summary>The night that is over, found once for all bays of a shop: not every car and warning is looked at for each of thousands.</summary>
internal sealed class LastNight
{
    private readonly ILookup<string, JobState> _cars;
    private readonly ILookup<string, Warning> _happened;

    /// <summary>Looks back from a shop's present.</summary>
    /// <param name="shop">The shop.</param>
    public LastNight(Shop shop)
    {
        From = AheadScene.LastLockUp(shop.Plan.Hours, shop.Now);
        JobState[] here = [.. shop.JobsInOrder.Where(j => j.LeftAt is null)];
        var baysOf = here.ToDictionary(j => j.Job.Id, j => BaysOf(shop, j), StringComparer.Ordinal);
        _cars = here.SelectMany(j => baysOf[j.Job.Id], (job, bay) => (job, bay)).ToLookup(c => c.bay, c => c.job, StringComparer.Ordinal);
        _happened = shop.Warnings.Values.Where(w => From is not null && !(w.ClearedAt < From))
            .SelectMany(w => BaysOf(w.Subject, baysOf), (warning, bay) => (warning, bay)).ToLookup(h => h.bay, h => h.warning, StringComparer.Ordinal);
    }

    /// <summary>The last lock-up; null where the shop never closes, or has not since it began to watch.</summary>
    public DateTimeOffset? From { get; }

    /// <summary>The cars that are in a bay, or have a part there, in the order they came.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>Their jobs.</returns>
    public IEnumerable<JobState> CarsIn(string bay) => _cars[bay];

    /// <summary>The warnings given of a bay and of the cars in it, those over again too, in the order they were given.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>The warnings.</returns>
    public ImmutableArray<Warning> HappenedIn(string bay) => [.. _happened[bay]];

    private static string[] BaysOf(Shop shop, JobState job) =>
        [.. job.Stories.Select(s => Stay.Of(shop, job.Job, s)[^1].Bay).OfType<string>().Distinct()];

    private static IEnumerable<string> BaysOf(Subject subject, Dictionary<string, string[]> baysOf)
    {
        IEnumerable<string> ofCar = subject.Job is { } job ? baysOf.GetValueOrDefault(job, []) : [];
        return subject.Bay is { } bay ? ofCar.Append(bay).Distinct() : ofCar;
    }
}
