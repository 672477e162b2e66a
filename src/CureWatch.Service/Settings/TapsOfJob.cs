using System.Collections.Immutable;
using CureWatch.Curing;

namespace CureWatch.Service.Settings;

/// <summary>The taps of a job as people write them.</summary>
internal static class TapsOfJob
{
    /// <summary>A thousand coats, each with a few taps. Source (choice).</summary>
    private const int MostTaps = 5_000;

    /// <returns>The taps, each retry once; one with a fault may be missing.</returns>
    public static ImmutableArray<Tap> Read(JsonCursor taps, TappedSurfaces surfaces, IEnumerable<string> bays)
    {
        string[] whereabouts = [.. bays, Whereabouts.Store, Whereabouts.Outside];
        TapOfJob[] told = [.. taps.Items(most: MostTaps).Select(t => TapOfJob.Read(t, surfaces, whereabouts))];
        CheckCorrections(told);
        return [.. WithoutRetries(told)];
    }

    private static IEnumerable<Tap> WithoutRetries(IEnumerable<TapOfJob> told)
    {
        var byId = new Dictionary<string, Tap>(StringComparer.Ordinal);
        foreach (TapOfJob one in told)
        {
            if (one.Tap is null)
            {
                continue;
            }

            if (one.Id is null || byId.TryAdd(one.Id, one.Tap))
            {
                yield return one.Tap;
            }
            else if (byId[one.Id] != one.Tap)
            {
                one.Place["id"].Refuse("each id once; the same tap told again says the same");
            }
        }
    }

    private static void CheckCorrections(TapOfJob[] told)
    {
        Dictionary<string, string?> corrects = told
            .Where(t => t.Id is not null)
            .GroupBy(t => t.Id!, StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => g.First().Corrects, StringComparer.Ordinal);
        foreach (TapOfJob one in told.Where(t => t.Corrects is not null))
        {
            if (!corrects.ContainsKey(one.Corrects!))
            {
                one.Place["corrects"].Refuse("the id of a tap of this job");
            }
            else if (one.Id is not null && ReachesItself(one.Id, corrects))
            {
                one.Place["corrects"].Refuse("the id of another tap, which does not itself correct this one");
            }
        }
    }

    private static bool ReachesItself(string id, Dictionary<string, string?> corrects)
    {
        string? next = corrects[id];
        for (int step = 0; next is not null && step < corrects.Count; step++)
        {
            if (next == id)
            {
                return true;
            }

            next = corrects.GetValueOrDefault(next);
        }

        return false;
    }
}
