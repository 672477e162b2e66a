using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The lamps over a surface, and what it was read to be under them.</summary>
/// <param name="Lit">When a lamp burned, in order, each with its end.</param>
/// <param name="Own">The surface's own readings around that time, in order.</param>
internal sealed record UnderLamp(ImmutableArray<LampSpell> Lit, ImmutableArray<OwnReading> Own)
{
    /// <summary>The lamps over a surface; null where there never was one.</summary>
    public static UnderLamp? Of(Shop shop, SurfaceStory story, ImmutableArray<Stay> stays)
    {
        if (story.Lamps.IsEmpty)
        {
            return null;
        }

        ImmutableArray<OwnReading> own = OwnReadings.Of(shop, story, stays, story.Lamps[0].From - OwnReading.ReachOfSpot);
        return new UnderLamp([.. story.Lamps.Select(l => l.Ended(own))], own);
    }

    /// <summary>What the lamps earn a coat on a stage: nothing where the sheet has no band for it.</summary>
    public ImmutableArray<LampPiece> CreditOf(Coat coat, CoatLaws laws, Stage? stage, DateTimeOffset now)
    {
        ImmutableArray<LampBand> bands = [.. laws.Sheet.Lamp.Where(b => b.Stages.Any(s => s == stage))];
        DateTimeOffset? cureStart = laws.Flash is null ? coat.AppliedAt : coat.LevelledAt;
        return bands.IsEmpty ? [] : LampCredit.Along(bands, Lit.Where(l => l.To > coat.StartedAt), Own, cureStart, now);
    }
}
