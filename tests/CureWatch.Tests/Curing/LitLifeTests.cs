using System.Collections.Immutable;
using CsCheck;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Tests.TimeWindows;

namespace CureWatch.Tests.Curing;

/// <summary>A coat's progress under a lamp: the sheet's credit where it counts, the air's where not, never the law at the lamp's heat.</summary>
public class LitLifeTests
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);
    private static readonly RateLaw Law = new(Mechanism.Cure, byDeficit: false, 50_000, 0.6, ReferenceClimate.Usual);

    private static readonly Gen<(ImmutableArray<Stretch> Life, Spell Lit, ImmutableArray<LampPiece> Pieces)> Lives = Gen.Select(
        Gen.Select(Gen.Double[1, 20], Gen.Double[10, 80], Gen.Double[10, 30]).Array[2, 12],
        Gen.Double[0, 60],
        Gen.Double[1, 60],
        Gen.Double[0, 1],
        (steps, from, length, share) =>
        {
            DateTimeOffset at = Start, on = At(from), off = At(from + length);
            Exposure exposure = Coated.Climate(20, 50);
            var life = ImmutableArray.CreateBuilder<Stretch>();
            foreach ((double minutes, double panelC, double airC) in steps)
            {
                Exposure next = Coated.Climate(airC, 50, panelC);
                life.Add(new Stretch.Loose(Law, ClimateSegment.Plain(at, at + TimeSpan.FromMinutes(minutes), exposure, next)));
                (at, exposure) = (life[^1].To, next);
            }

            return (life.ToImmutable(), new Spell(on, off), ImmutableArray.Create(new LampPiece(on, on + ((off - on) * share), LampVerdict.Credited, 0.2)));
        });

    [Fact]
    public void Progress_IsTheBandsCredit_AndElsewhereNoMoreThanTheAirs() => Lives.Sample(day =>
    {
        var lit = new CureRecord(Law, Under(day));
        double most = day.Pieces.Sum(p => Overlap(p, lit) * 0.2);
        Credit earned = lit.Between(Start, lit.End);
        Assert.True(earned.Slow <= earned.Likely + 1e-9 && earned.Likely <= earned.Fast + 1e-9);
        Credit under = lit.Between(day.Lit.From, Min(day.Lit.To!.Value, lit.End));
        Assert.InRange(under.Likely, 0, Unlit(day.Life).Between(day.Lit.From, Min(day.Lit.To!.Value, lit.End)).Likely + most + 1e-9);
    });

    [Fact]
    public void Life_StaysWhole_AndReachesWhatItHasEarned() => Gen.Select(Lives, Gen.Double[0.01, 0.99]).Sample((day, share) =>
    {
        var lit = new CureRecord(Law, Under(day));
        Assert.Equal(day.Life[0].From, lit.Stretches[0].From);
        Assert.Equal(day.Life[^1].To, lit.End);
        Assert.All(lit.Stretches.Zip(lit.Stretches.Skip(1)), pair => Assert.Equal(pair.First.To, pair.Second.From));
        foreach (Pace pace in new[] { Pace.Slow, Pace.Likely })
        {
            double hours = lit.Between(Start, lit.End).Of(pace) * share;
            Assert.Equal(hours, lit.Between(Start, lit.ReachedAt(Start, hours, pace)!.Value).Of(pace), 1e-5);
        }
    });

    [Fact]
    public void WithoutALamp_LifeIsAsItWas() => Lives.Sample(day =>
        Assert.Equal(day.Life.AsEnumerable(), new LitLife(Law, [], [], 60, []).Along(day.Life)));

    private static ImmutableArray<Stretch> Under((ImmutableArray<Stretch> Life, Spell Lit, ImmutableArray<LampPiece> Pieces) day) =>
        new LitLife(Law, [day.Lit], day.Pieces, 60, []).Along(day.Life);

    private static CureRecord Unlit(ImmutableArray<Stretch> life) =>
        new(Law, [.. life.Select(s => new LitStretch(Law, s.SegmentFrom(s.From, s.To), 0))]);

    private static double Overlap(LampPiece piece, CureRecord life) => Math.Max(0, (Min(piece.To, life.End) - piece.From).TotalMinutes);

    private static DateTimeOffset Min(DateTimeOffset a, DateTimeOffset b) => a < b ? a : b;

    private static DateTimeOffset At(double minute) => Start + TimeSpan.FromMinutes(minute);
}
