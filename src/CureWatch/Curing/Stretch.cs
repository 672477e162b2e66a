using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Curing;

/// <summary>A stretch of a coat's life under one climate.</summary>
/// <param name="From">Its start.</param>
/// <param name="To">Its end, after the start.</param>
public abstract record Stretch(DateTimeOffset From, DateTimeOffset To)
{
    /// <summary>Progress over a part of the stretch.</summary>
    /// <param name="start">The part's start.</param>
    /// <param name="until">The part's end.</param>
    /// <returns>The progress.</returns>
    public abstract Credit Between(DateTimeOffset start, DateTimeOffset until);

    /// <summary>When progress since an instant reaches an amount.</summary>
    /// <param name="start">The instant, inside the stretch.</param>
    /// <param name="hours">The amount [reference h], above 0.</param>
    /// <param name="pace">The pace.</param>
    /// <returns>The instant; null where the stretch ends before.</returns>
    public abstract DateTimeOffset? ReachedAt(DateTimeOffset start, double hours, Pace pace);

    /// <summary>What the surface is exposed to at an instant.</summary>
    /// <param name="instant">The instant, inside the stretch or at one of its ends.</param>
    /// <returns>The exposure.</returns>
    public abstract Exposure ExposureAt(DateTimeOffset instant);

    /// <summary>A part of the stretch.</summary>
    /// <param name="start">The part's start, inside the stretch.</param>
    /// <param name="until">The part's end, after its start and not after the stretch's.</param>
    /// <returns>A stretch of its own.</returns>
    public abstract Stretch Part(DateTimeOffset start, DateTimeOffset until);

    /// <summary>The climate from an instant on, as far as it runs straight.</summary>
    /// <param name="start">The instant, inside the stretch.</param>
    /// <param name="until">No longer than to here.</param>
    /// <returns>The segment.</returns>
    public abstract ClimateSegment SegmentFrom(DateTimeOffset start, DateTimeOffset until);

    /// <summary>A stretch along a settled track, read off its table.</summary>
    /// <param name="Table">The table, reaching back to the stretch's start; it may end before the track does.</param>
    /// <param name="Whole">The same table, summed up to the track's end when it is needed.</param>
    /// <param name="Track">The track, settled to the stretch's end.</param>
    /// <param name="From">Its start.</param>
    /// <param name="To">Its end.</param>
    public sealed record Settled(CreditTable Table, Lazy<CreditTable> Whole, ClimateTrack Track, DateTimeOffset From, DateTimeOffset To)
        : Stretch(From, To)
    {
        /// <inheritdoc/>
        public override Credit Between(DateTimeOffset start, DateTimeOffset until)
        {
            CreditTable table = Table.Covers(Track, until) ? Table : Whole.Value;
            return table.Until(Track, until) - table.Until(Track, start);
        }

        /// <inheritdoc/>
        public override DateTimeOffset? ReachedAt(DateTimeOffset start, double hours, Pace pace)
        {
            DateTimeOffset? at = Table.Covers(Track, start) ? Table.ReachedAt(Track, start, hours, pace) : null;
            return (at ?? Whole.Value.ReachedAt(Track, start, hours, pace)) is { } reached && reached <= To ? reached : null;
        }

        /// <inheritdoc/>
        public override Exposure ExposureAt(DateTimeOffset instant) => Track.ExposureAt(instant);

        /// <inheritdoc/>
        public override Stretch Part(DateTimeOffset start, DateTimeOffset until) => this with { From = start, To = until };

        /// <inheritdoc/>
        public override ClimateSegment SegmentFrom(DateTimeOffset start, DateTimeOffset until)
        {
            ClimateSegment segment = Track.Segments[Track.Segments.CountWhile((in s) => s.End <= start)];
            return segment.Between(start, until < segment.End ? until : segment.End);
        }
    }

    /// <summary>A stretch of one straight segment: what is not settled yet, or was not watched.</summary>
    /// <remarks>Every stage of a coat asks for the same few parts of a gap several times, and a gap is dear: each part of one is integrated once.</remarks>
    public sealed record Loose : Stretch
    {
        private readonly Dictionary<(DateTimeOffset Start, DateTimeOffset Until), Credit>? _partsOfGap;

        /// <summary>Takes a straight segment.</summary>
        /// <param name="law">The rate law.</param>
        /// <param name="segment">The segment.</param>
        public Loose(RateLaw law, ClimateSegment segment)
            : base(segment.Start, segment.End)
        {
            Law = law;
            Segment = segment;
            _partsOfGap = segment.Unseen?.IsGapFor(law.Mechanism) == true ? [] : null;
        }

        /// <summary>The rate law.</summary>
        public RateLaw Law { get; }

        /// <summary>The segment.</summary>
        public ClimateSegment Segment { get; }

        /// <inheritdoc/>
        public override Credit Between(DateTimeOffset start, DateTimeOffset until)
        {
            if (_partsOfGap is null)
            {
                return CureIntegral.Over(Law, Segment.Between(start, until));
            }

            if (!_partsOfGap.TryGetValue((start, until), out Credit earned))
            {
                earned = CureIntegral.Over(Law, Segment.Between(start, until));
                _partsOfGap.Add((start, until), earned);
            }

            return earned;
        }

        /// <inheritdoc/>
        public override DateTimeOffset? ReachedAt(DateTimeOffset start, double hours, Pace pace) =>
            Between(start, To).Of(pace) < hours ? null
            : _partsOfGap is null ? CureIntegral.ReachedAt(Law, Segment.Between(start, To), hours, pace)
            : CureIntegral.ReachedInGap(Law, Segment.Between(start, To), Segment.Unseen!, hours, pace, Between);

        /// <inheritdoc/>
        public override Exposure ExposureAt(DateTimeOffset instant) => Segment.ExposureAt(instant);

        /// <inheritdoc/>
        public override Stretch Part(DateTimeOffset start, DateTimeOffset until) => new Loose(Law, Segment.Between(start, until));

        /// <inheritdoc/>
        public override ClimateSegment SegmentFrom(DateTimeOffset start, DateTimeOffset until) => Segment.Between(start, until);
    }
}
