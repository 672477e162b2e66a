using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;

namespace CureWatch.Bays;

/// <summary>Where a surface was, and who measured there.</summary>
/// <param name="Point">The point that watched it; null where nobody did.</param>
/// <param name="Bay">The bay; null outside and in the store.</param>
/// <param name="From">Since when.</param>
/// <param name="To">Until when; null where it still is.</param>
public sealed record Stay(WatchPoint? Point, string? Bay, DateTimeOffset From, DateTimeOffset? To)
{
    /// <summary>The stays of a surface.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">Its job.</param>
    /// <param name="story">What people told.</param>
    /// <returns>The stays, without a gap between them, from the beginning of time on.</returns>
    public static ImmutableArray<Stay> Of(Shop shop, Job job, SurfaceStory story)
    {
        var stays = ImmutableArray.CreateBuilder<Stay>();
        (string bay, DateTimeOffset from) = (job.Bay, DateTimeOffset.MinValue);
        foreach (Move move in story.Moves)
        {
            stays.AddRange(In(shop, bay, job.Id, story, from, move.At));
            (bay, from) = (move.ToBay, move.At);
        }

        stays.AddRange(In(shop, bay, job.Id, story, from, null));
        return stays.ToImmutable();
    }

    /// <summary>The stretches in which nobody measured, wherever the surface was meanwhile.</summary>
    /// <param name="stays">The stays, in order.</param>
    /// <returns>The stretches; between two of them somebody did.</returns>
    public static ImmutableArray<Spell> Unwatched(IEnumerable<Stay> stays)
    {
        var spells = ImmutableArray.CreateBuilder<Spell>();
        foreach (Stay stay in stays.Where(s => s.Point is null))
        {
            if (spells is [.., { To: { } end }] && end == stay.From)
            {
                spells[^1] = spells[^1] with { To = stay.To };
            }
            else
            {
                spells.Add(new Spell(stay.From, stay.To));
            }
        }

        return spells.ToImmutable();
    }

    /// <summary>How far the probes may be off wherever a coat was measured.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="stays">The stays of its surface, in order.</param>
    /// <param name="since">When the coat was begun.</param>
    /// <returns>The doubt in each place since; where nobody has measured it since, in the last where somebody measured before, or of nobody at all.</returns>
    /// <remarks>What was earned beside a poor probe is no surer beside a good one, nor for a second that was fitted later.</remarks>
    public static ImmutableArray<ClimateDoubt> Doubts(Shop shop, ImmutableArray<Stay> stays, DateTimeOffset since)
    {
        ImmutableArray<ClimateDoubt> doubts =
        [
            .. stays.Where(s => s.Point is not null && !(s.To <= since) && s.From <= shop.Now)
                .Select(s => s.Point!.DoubtIn(shop.Bays[s.Point.Bay], since > s.From ? since : s.From)).Distinct(),
        ];
        return !doubts.IsEmpty ? doubts
            : stays.LastOrDefault(s => s.Point is not null)?.Point is { } before ? [before.DoubtIn(shop.Bays[before.Bay], shop.Now)]
            : [ClimateDoubt.OfNobody];
    }

    /// <summary>The stretches in which water condensed where the surface was.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="stays">The stays.</param>
    /// <returns>The stretches.</returns>
    public static ImmutableArray<Spell> Wet(Shop shop, IEnumerable<Stay> stays) =>
    [
        .. from stay in stays
           where stay.Point is not null
           from spell in shop.Bays[stay.Point!.Bay].WetSpellsIn(stay.Point.Air)
           where !(spell.From >= stay.To) && !(spell.To < stay.From)
           select new Spell(spell.From > stay.From ? spell.From : stay.From, Earlier(spell.To, stay.To)),
    ];

    /// <summary>A stay in a bay, cut where somebody began or ceased to measure in it.</summary>
    private static IEnumerable<Stay> In(Shop shop, string bay, string job, SurfaceStory story, DateTimeOffset from, DateTimeOffset? to)
    {
        if (shop.Bays.Find(bay) is not { } state)
        {
            yield return new Stay(null, null, from, to);
            yield break;
        }

        WatchPoint point = WatchPoint.Of(state.Plan, job, story);
        foreach (AirChange change in state.AirChanges.Where(c => c.Air == point.Air && c.At > from && !(c.At >= to)))
        {
            yield return new Stay(change.WasMeasured ? point : null, bay, from, change.At);
            from = change.At;
        }

        bool isMeasured = state.AirChanges.FirstOrDefault(c => c.Air == point.Air && c.At >= to)?.WasMeasured ?? point.IsMeasuredIn(state.Plan);
        yield return new Stay(isMeasured ? point : null, bay, from, to);
    }

    private static DateTimeOffset? Earlier(DateTimeOffset? a, DateTimeOffset? b) => a is null || b < a ? b : a;
}
