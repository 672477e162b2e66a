using System.Collections.Immutable;
using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>How far from its twins an air probe that is missing may be: as far as it was while all were heard.</summary>
/// <param name="LeastK">The least it may say above their mean [K].</param>
/// <param name="MostK">The most.</param>
/// <param name="LeastPa">The least vapour pressure it may say above their mean [Pa].</param>
/// <param name="MostPa">The most.</param>
/// <remarks>
/// Probes that agreed measure one air, which those still heard go on to measure: what the missing one said last grows no older. How far
/// each may be off by its limits is reckoned with elsewhere (<see cref="ClimateDoubt"/>). Source (choice):
/// compared at its last reading and seven times before, each twice as long ago as the one before, from five minutes to five hours.
/// </remarks>
internal readonly record struct TwinReach(double LeastK, double MostK, double LeastPa, double MostPa)
{
    private static readonly ImmutableArray<TimeSpan> Ago =
        [TimeSpan.Zero, .. Enumerable.Range(0, 7).Select(i => TimeSpan.FromMinutes(5 << i))];

    /// <summary>How long before it was lost a probe is compared.</summary>
    public static TimeSpan LongestAgo => Ago[^1];

    /// <summary>Compares a probe with its twins before it was lost.</summary>
    /// <param name="lost">The probe.</param>
    /// <param name="last">When it was last heard, or last believed.</param>
    /// <param name="twins">Those that are still heard.</param>
    /// <returns>How far it may be; null where none was heard beside it, or one disagreed with it: then it may have been the one that was right.</returns>
    public static TwinReach? Of(Source lost, DateTimeOffset last, ImmutableArray<Source> twins)
    {
        TwinReach? reach = null;
        foreach (DateTimeOffset at in Ago.Select(ago => last - ago))
        {
            if (lost.Around(at, at) is not { } around || lost.IsGapForCure(around.Length(at)))
            {
                continue;
            }

            Testimony own = lost.Testify(around, at);
            Testimony[] others = [.. twins.Select(t => (Source: t, Around: t.Around(at, at)))
                .Where(t => t.Around is { } heard && !t.Source.IsGapForCure(heard.Length(at)) && t.Source.StoodStillSince(at, at) is null)
                .Select(t => t.Source.Testify(t.Around!, at))];
            if (others.Any(o => own.DistanceTo(o) > 1))
            {
                return null;
            }

            if (others.Length > 0)
            {
                double kelvins = own.Kelvins - others.Average(o => o.Kelvins), pascals = own.VapourPressurePa - others.Average(o => o.VapourPressurePa);
                reach = reach is { } known ? known.With(kelvins, pascals) : at == last ? new TwinReach(kelvins, kelvins, pascals, pascals) : null;
            }
        }

        return reach;
    }

    private TwinReach With(double kelvins, double pascals) =>
        new(Math.Min(LeastK, kelvins), Math.Max(MostK, kelvins), Math.Min(LeastPa, pascals), Math.Max(MostPa, pascals));
}
