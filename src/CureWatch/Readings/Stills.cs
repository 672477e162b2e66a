using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>The stretches in which one probe stood still, in order of their beginnings, few.</summary>
internal static class Stills
{
    /// <summary>More are put together, the oldest first: what lies between is not believed either. Source (choice).</summary>
    private const int Most = 32;

    public static Still? Open(this ImmutableArray<Still> stills, Quantity what)
    {
        for (int i = stills.Length - 1; i >= 0; i--)
        {
            if (stills[i].What == what && stills[i].To is null)
            {
                return stills[i];
            }
        }

        return null;
    }

    public static Still? Over(this ImmutableArray<Still> stills, Quantity what, DateTimeOffset from, DateTimeOffset to)
    {
        for (int i = stills.Length - 1; i >= 0; i--)
        {
            if (stills[i].What == what && stills[i].Covers(from, to))
            {
                return stills[i];
            }
        }

        return null;
    }

    public static ImmutableArray<Still> With(this ImmutableArray<Still> stills, Still still)
    {
        ImmutableArray<Still> all = stills.Add(still);
        if (all.Length <= Most)
        {
            return all;
        }

        int second = Enumerable.Range(1, all.Length - 1).FirstOrDefault(i => all[i].What == all[0].What && all[i].To is not null);
        return second > 0 ? all.RemoveAt(second).SetItem(0, all[0] with { To = all[second].To }) : all.RemoveAt(0);
    }
}
