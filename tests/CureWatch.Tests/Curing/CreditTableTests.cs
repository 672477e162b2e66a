using CsCheck;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;

namespace CureWatch.Tests.Curing;

public class CreditTableTests
{
    private static readonly RateLaw Law = Segments.Law(50_000, 0.7);

    private static readonly Gen<int[]> Seconds = Gen.Int[1, 70].Array[1, 120];

    // What a law earned between two ends of segments that are kept does not depend on what was let go of, or made one, around them.
    [Fact]
    public void Table_AlongAThinnedTrack_HasEarnedTheSame() => Gen.Select(Seconds, Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1]).Sample(
        (seconds, begins, act, from, fresh) =>
        {
            ClimateTrack track = Track(seconds);
            DateTimeOffset start = track.Segments[0].Start, end = track.Segments.Last.End;
            DateTimeOffset At(double share) => start + ((end - start) * share);
            var table = CreditTable.Begin(Law, track, At(begins));
            (ClimateTrack thin, TrackThinning thinning) = track.Thin(new Ages(At(from * begins), At(fresh / 2), At(fresh)), table.Borders, [At(act)]);
            CreditTable after = table.Follow(thinning);
            if (after.First >= thin.Segments.Count)
            {
                return;
            }

            DateTimeOffset first = thin.Segments[after.First].Start;
            foreach (ClimateSegment segment in Enumerable.Range(after.First, thin.Segments.Count - after.First).Select(i => thin.Segments[i]))
            {
                double earned = after.Until(thin, segment.End).Likely - after.Until(thin, first).Likely;
                double exact = table.Until(track, segment.End).Likely - table.Until(track, first).Likely;
                Assert.Equal(exact, earned, 1e-12);
            }

            if (At(act) > first)
            {
                Assert.Equal(
                    table.Until(track, At(act)).Likely - table.Until(track, first).Likely,
                    after.Until(thin, At(act)).Likely - after.Until(thin, first).Likely,
                    1e-12);
            }
        });

    [Fact]
    public void Track_Thinned_ReachesAsFar_AndNoSegmentIsLongerThanAsked() => Gen.Select(Seconds, Gen.Double[0, 1]).Sample((seconds, from) =>
    {
        ClimateTrack track = Track(seconds);
        DateTimeOffset instant = track.Segments[0].Start + ((track.Segments.Last.End - track.Segments[0].Start) * from);
        ClimateTrack thin = track.Thin(new Ages(instant, DateTimeOffset.MinValue, DateTimeOffset.MaxValue), [], []).Track;
        ClimateSegment[] kept = [.. Enumerable.Range(0, thin.Segments.Count).Select(i => thin.Segments[i])];
        Assert.Equal(track.SettledTo, kept[^1].End);
        Assert.True(kept[0].Start <= instant);
        Assert.All(kept.Skip(1).Zip(kept), pair => Assert.Equal(pair.Second.End, pair.First.Start));
        Assert.All(kept, s => Assert.True(s.End - s.Start <= TimeSpan.FromSeconds(70)));
        Assert.All(kept.Skip(1).Zip(kept), pair => Assert.True(pair.First.End - pair.Second.Start > TimeSpan.FromMinutes(1)));
    });

    private static ClimateTrack Track(int[] seconds)
    {
        var segments = new Trail<ClimateSegment>();
        DateTimeOffset start = Segments.Noon;
        foreach (int length in seconds)
        {
            DateTimeOffset end = start.AddSeconds(length);
            segments = segments.Append(ClimateSegment.Plain(start, end, At(start), At(end)));
            start = end;
        }

        return new ClimateTrack(segments);

        Exposure At(DateTimeOffset instant)
        {
            double minutes = (instant - Segments.Noon).TotalMinutes;
            return Segments.At(20 + Math.Sin(minutes / 3), 55 + (5 * Math.Cos(minutes / 4)));
        }
    }
}
