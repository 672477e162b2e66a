using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The watched coats of one product under one climate of a bay: what its climate means is the same for all of them.</summary>
/// <param name="Point">The point that watches them.</param>
/// <param name="Laws">The laws of their product.</param>
/// <param name="Surfaces">Their surfaces, each once, with the job.</param>
public sealed record OpenCoats(WatchPoint Point, CoatLaws Laws, ImmutableArray<(string Job, Surface Surface)> Surfaces)
{
    /// <summary>Whether the keep-dry of all of them is over at the latest: only heat can spoil them.</summary>
    public bool AreDry { get; init; }

    /// <summary>The watched coats of a bay.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="bay">The bay.</param>
    /// <returns>One for each product and climate, those that are dry by themselves, in the order of their first coats.</returns>
    internal static ImmutableArray<OpenCoats> In(Shop shop, BayState bay) =>
    [
        .. from job in bay.Jobs
           from coat in shop.Jobs[job].Watched
           where coat.Point?.Bay == bay.Plan.Bay
           group (job, coat.Coat.Surface) by (Point: coat.Point!, coat.Laws, coat.IsDry) into alike
           select new OpenCoats(alike.Key.Point, alike.Key.Laws, [.. alike.DistinctBy(c => (c.job, c.Surface.Id))]) { AreDry = alike.Key.IsDry },
    ];
}
