using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>The course of a surface's own temperature: what it follows is known, and where it was before.</summary>
/// <remarks>
/// A surface without a probe follows the colder of the air and its neighbours, lagging by its time constant; where it was is the end of the
/// segment before, so that a track that is rewound goes on as if it had never been longer. On top of that comes what a spot told of it alone.
/// A segment is cut up where a straight line would not do.
/// </remarks>
internal static class PanelCourse
{
    /// <summary>How far a straight piece may be off [K]. Source (choice): below what anybody measures.</summary>
    private const double StraightK = 0.05;

    private const int MostPieces = 64;

    /// <summary>The same stretch with the surface's own temperature.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="target">The stretch, its panel what the surface follows, or the measured one.</param>
    /// <param name="before">The segment before; null where there is none.</param>
    /// <returns>One segment, or several that follow each other.</returns>
    public static ClimateSegment[] Along(Watch watch, ClimateSegment target, ClimateSegment? before)
    {
        bool isMeasured = watch.MeasuresPanelAt(target.Start) || watch.TimeConstant <= TimeSpan.Zero;
        double kelvins = isMeasured || before is not { } b
            ? target.AtStart.PanelKelvins
            : b.AtEnd.PanelKelvins - (b.Apart?.Kelvins ?? 0) + (target.AtStart.AirKelvins - b.AtEnd.AirKelvins); // where air jumps, others tell of it
        Apart? apart = SpotAt(watch.Spots, target.Start, isFirst: before is null) is { } spot && watch.TimeConstant > TimeSpan.Zero
            ? Apart.At(spot, kelvins, watch.TimeConstant, before?.Apart)
            : before?.Apart is { IsFelt: true } felt ? felt : null;
        if (isMeasured && apart is null)
        {
            return [target];
        }

        if (target.Unseen is { } unseen)
        {
            double own = kelvins + (apart?.Kelvins ?? 0);
            target = target with { Unseen = unseen with { Before = unseen.Before with { PanelKelvins = own } } };
        }

        int count = isMeasured ? 1 : Pieces(kelvins - target.AtStart.PanelKelvins, target, watch.TimeConstant);
        return Cut(watch, target, apart is null ? count : Math.Max(count, Pieces(apart.Kelvins, target, apart.TimeConstant)), isMeasured, kelvins, apart);
    }

    /// <summary>What was read by hand at the start of a stretch; where the climate is known from there on only, what was read before counts too.</summary>
    private static PanelSpot? SpotAt(ImmutableArray<PanelSpot> spots, DateTimeOffset start, bool isFirst)
    {
        PanelSpot? read = null;
        foreach (PanelSpot spot in spots)
        {
            read = spot.At == start || (isFirst && spot.At < start) ? spot : read;
        }

        return read;
    }

    private static ClimateSegment[] Cut(Watch watch, ClimateSegment target, int count, bool isMeasured, double kelvins, Apart? apart)
    {
        TimeSpan whole = target.End - target.Start;
        var pieces = new ClimateSegment[count];
        for (int i = 0; i < count; i++)
        {
            ClimateSegment piece = target.Between(target.Start + (whole * i / count), target.Start + (whole * (i + 1) / count));
            TimeSpan elapsed = piece.End - piece.Start;
            double start = isMeasured ? piece.AtStart.PanelKelvins : kelvins;
            kelvins = isMeasured
                ? piece.AtEnd.PanelKelvins
                : OneNode.After(kelvins, piece.AtStart.PanelKelvins, piece.AtEnd.PanelKelvins, elapsed, watch.TimeConstant);
            Apart? left = apart?.After(elapsed);
            pieces[i] = With(piece, start, kelvins, apart, left) with { GoesOn = i + 1 < count };
            apart = left;
        }

        return pieces;
    }

    /// <summary>A decay over x time constants strays from its chord by up to an eighth of x² of it.</summary>
    private static int Pieces(double apartKelvins, ClimateSegment segment, TimeSpan timeConstant) => (int)Math.Clamp(
        Math.Ceiling((segment.End - segment.Start) / timeConstant * Math.Sqrt(Math.Abs(apartKelvins) / (8 * StraightK))), 1, MostPieces);

    private static ClimateSegment With(ClimateSegment piece, double startKelvins, double endKelvins, Apart? atStart, Apart? atEnd)
    {
        double startK = startKelvins - piece.AtStart.PanelKelvins + (atStart?.Kelvins ?? 0);
        double endK = endKelvins - piece.AtEnd.PanelKelvins + (atEnd?.Kelvins ?? 0);
        ImmutableArray<Alternative> others = piece.Alternatives.IsEmpty ? piece.Alternatives : [.. piece.Alternatives.Select(a => a.Warmer(startK, endK))];
        if (atEnd is { IsSuspect: true })
        {
            others = others.Add(new Alternative(
                piece.AtStart with { PanelKelvins = startKelvins }, piece.AtEnd with { PanelKelvins = endKelvins }));
        }

        return piece with
        {
            AtStart = piece.AtStart.Warmer(startK),
            AtEnd = piece.AtEnd.Warmer(endK),
            Alternatives = others,
            Apart = atEnd,
        };
    }
}
