using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>The course of a surface's own temperature: what it follows is known, and where it was before.</summary>
/// <remarks>
/// A surface without a probe follows the colder of the air and its neighbours, lagging by its time constant; where it was is the end of the
/// segment before, so that a track that is rewound goes on as if it had never been longer. On top of that comes what a spot told of it alone.
/// A segment is cut up where a straight line would not do.
/// </remarks>
internal struct PanelCourse
{
    /// <summary>How far a straight piece may be off [K]. Source (choice): below what anybody measures.</summary>
    private const double StraightK = 0.05;

    private const int MostPieces = 64;

    private readonly ClimateSegment _target;
    private readonly TimeSpan _timeConstant;
    private readonly bool _isMeasured;
    private readonly int _count;
    private double _kelvins;
    private Apart? _apart;
    private int _next;

    private PanelCourse(ClimateSegment target, TimeSpan timeConstant, bool isMeasured, double kelvins, Apart? apart)
    {
        (_target, _timeConstant, _isMeasured, _kelvins, _apart) = (target, timeConstant, isMeasured, kelvins, apart);
        int count = isMeasured ? 1 : Pieces(kelvins - target.AtStart.PanelKelvins, target, timeConstant);
        _count = apart is null ? count : Math.Max(count, Pieces(apart.Kelvins, target, apart.TimeConstant));
    }

    /// <summary>The piece that was come to.</summary>
    public ClimateSegment Current { get; private set; }

    /// <summary>The same stretch with the surface's own temperature.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="target">The stretch, its panel what the surface follows, or the measured one.</param>
    /// <param name="before">The segment before; null where there is none.</param>
    /// <returns>One segment, or several that follow each other.</returns>
    public static PanelCourse Along(Watch watch, ClimateSegment target, ClimateSegment? before)
    {
        bool isMeasured = watch.MeasuresPanelAt(target.Start) || watch.TimeConstant <= TimeSpan.Zero;
        double kelvins = isMeasured || before is not { } b
            ? target.AtStart.PanelKelvins
            : b.AtEnd.PanelKelvins - (b.Apart?.Kelvins ?? 0) + (target.AtStart.AirKelvins - b.AtEnd.AirKelvins); // where air jumps, others tell of it
        Apart? apart = SpotAt(watch.Spots, target.Start, isFirst: before is null) is { } spot && watch.TimeConstant > TimeSpan.Zero
            ? Apart.At(spot, kelvins, watch.TimeConstant, before?.Apart)
            : before?.Apart is { IsFelt: true } felt ? felt : null;
        if (target.Unseen is { } unseen && !(isMeasured && apart is null))
        {
            double own = kelvins + (apart?.Kelvins ?? 0);
            target = target with { Unseen = unseen with { Before = unseen.Before with { PanelKelvins = own } } };
        }

        return new PanelCourse(target, watch.TimeConstant, isMeasured, kelvins, apart);
    }

    /// <summary>The pieces, one after the other.</summary>
    /// <returns>The course from its beginning.</returns>
    public readonly PanelCourse GetEnumerator() => this;

    /// <summary>Comes to the next piece.</summary>
    /// <returns>False at the end.</returns>
    public bool MoveNext()
    {
        if (_next == _count)
        {
            return false;
        }

        TimeSpan whole = _target.End - _target.Start;
        ClimateSegment piece = _target.Between(_target.Start + (whole * _next / _count), _target.Start + (whole * (_next + 1) / _count));
        TimeSpan elapsed = piece.End - piece.Start;
        double start = _isMeasured ? piece.AtStart.PanelKelvins : _kelvins;
        _kelvins = _isMeasured
            ? piece.AtEnd.PanelKelvins
            : OneNode.After(_kelvins, piece.AtStart.PanelKelvins, piece.AtEnd.PanelKelvins, elapsed, _timeConstant);
        Apart? left = _apart?.After(elapsed);
        _next++;
        Current = _isMeasured && left is null ? piece : With(piece, start, _kelvins, _apart, left) with { GoesOn = _next < _count };
        _apart = left;
        return true;
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

    /// <summary>A decay over x time constants strays from its chord by up to an eighth of x² of it.</summary>
    private static int Pieces(double apartKelvins, ClimateSegment segment, TimeSpan timeConstant) => (int)Math.Clamp(
        Math.Ceiling((segment.End - segment.Start) / timeConstant * Math.Sqrt(Math.Abs(apartKelvins) / (8 * StraightK))), 1, MostPieces);

    private static ClimateSegment With(ClimateSegment piece, double startKelvins, double endKelvins, Apart? atStart, Apart? atEnd)
    {
        double startK = startKelvins - piece.AtStart.PanelKelvins + (atStart?.Kelvins ?? 0);
        double endK = endKelvins - piece.AtEnd.PanelKelvins + (atEnd?.Kelvins ?? 0);
        ImmutableArray<Alternative> others = piece.Alternatives.IsEmpty ? piece.Alternatives : Warmer(piece.Alternatives, startK, endK);
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

    private static ImmutableArray<Alternative> Warmer(ImmutableArray<Alternative> others, double startK, double endK) =>
        [.. others.Select(a => a.Warmer(startK, endK))];
}
