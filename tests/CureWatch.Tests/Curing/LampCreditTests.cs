using System.Collections.Immutable;
using CsCheck;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Tests.Curing;

/// <summary>What a lamp earns, whatever is read and told. The band is the demo paint's, invented.</summary>
public class LampCreditTests
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);
    private static readonly LampBand Band = new(55, 65, 0.2, TimeSpan.FromHours(1), 20, [Stage.KeepDry]);

    /// <summary>Readings up to four minutes apart, around the band and far from it; a lamp somewhere in them.</summary>
    private static readonly Gen<(ImmutableArray<OwnReading> Own, Spell Lit, double CureMinute)> Days = Gen.Select(
        Gen.Select(Gen.Double[0.1, 4], Gen.Double[40, 80]).Array[0, 60],
        Gen.Double[0, 120],
        Gen.Double[0, 120],
        Gen.Double[-80, 60],
        (steps, from, length, cure) =>
        {
            double minute = 0;
            ImmutableArray<OwnReading> own = [.. steps.Select(s => Read(minute += s.Item1, s.Item2))];
            return (own, new Spell(At(from), At(from + length)), cure);
        });

    [Fact]
    public void Credit_IsNoMoreThanTheTimeInBand_AndNoMoreThanTheSheetAllows() => Days.Sample(day =>
    {
        ImmutableArray<LampPiece> pieces = Along(day.Own, [day.Lit], day.CureMinute);
        double inBand = day.Own.Zip(day.Own.Skip(1)).Sum(pair => IsIn(pair.First) && IsIn(pair.Second) ? Overlap(pair.First.At, pair.Second.At, day.Lit) : 0);
        double credited = Minutes(pieces, LampVerdict.Credited);
        Assert.InRange(credited, 0, Math.Min(inBand, Band.MaxMinutes) + 1e-6);
        Assert.Equal(credited * Band.ReferenceHoursPerMinute, pieces.Sum(p => p.Minutes * p.ReferenceHoursPerMinute), 1e-9);
        Assert.All(
            pieces.Where(p => p.Verdict == LampVerdict.Credited),
            p => Assert.True(p.From >= day.Lit.From && p.To <= day.Lit.To && p.From >= At(day.CureMinute) + Band.NotBefore));
    });

    [Fact]
    public void EveryMinuteUnderTheLamp_CountsOrSaysWhyNot() => Days.Sample(day =>
        Assert.Equal((day.Lit.To!.Value - day.Lit.From).TotalMinutes, Along(day.Own, [day.Lit], day.CureMinute).Sum(p => p.Minutes), 1e-6));

    [Fact]
    public void ReadingsInBetween_ThatSayNothingNew_ChangeNothing() => Gen.Select(Days, Gen.Double[0.05, 0.95]).Sample((day, share) =>
    {
        var split = new List<OwnReading>();
        foreach ((OwnReading first, OwnReading second) in day.Own.Zip(day.Own.Skip(1)))
        {
            split.Add(first);
            if (first.Reaches(second) && IsIn(first) == IsIn(second) && first.PanelC > Band.PanelMaxC == second.PanelC > Band.PanelMaxC)
            {
                split.Add(new OwnReading(first.At + ((second.At - first.At) * share), first.PanelC + ((second.PanelC - first.PanelC) * share), first.Reach));
            }
        }

        split.AddRange(day.Own.TakeLast(1));
        Assert.Equal(Along(day.Own, [day.Lit], day.CureMinute).AsEnumerable(), Along(split, [day.Lit], day.CureMinute));
    });

    [Fact]
    public void ALamp_InTwoParts_EarnsTheSame() => Gen.Select(Days, Gen.Double[0, 1]).Sample((day, share) =>
    {
        DateTimeOffset between = day.Lit.From + ((day.Lit.To!.Value - day.Lit.From) * share);
        Spell[] parts = [day.Lit with { To = between }, day.Lit with { From = between }];
        Assert.Equal(Along(day.Own, [day.Lit], day.CureMinute).AsEnumerable(), Along(day.Own, parts, day.CureMinute));
    });

    [Fact]
    public void WithoutAReadingOfItsOwn_NothingIsCredited() =>
        Assert.Equal([new LampPiece(At(70), At(90), LampVerdict.NoOwnReading, 0)], Along([], [new Spell(At(70), At(90))], cureMinute: 0));

    [Fact]
    public void ASingleReadingInBand_EarnsNothingBeyondIt() =>
        Assert.Equal(0, Minutes(Along([Read(69, 40), Read(71, 60), Read(73, 40)], [new Spell(At(70), At(90))], cureMinute: 0), LampVerdict.Credited));

    [Fact]
    public void ADay_SaysEveryReason()
    {
        // Cured from minute 0; the lamp burns from 50 to 110; readings each minute: below the band to 55, in it to 95, above it to 105, then none.
        OwnReading[] own = [.. Enumerable.Range(40, 66).Select(m => Read(m, m < 55 ? 50 : m <= 95 ? 60 : 70))];
        (LampVerdict, double)[] told = [.. Along(own, [new Spell(At(50), At(110))], cureMinute: 0).Select(p => (p.Verdict, Math.Round(p.Minutes, 6)))];
        Assert.Equal(
            [
                (LampVerdict.RampUp, 5), (LampVerdict.TooEarly, 5), (LampVerdict.Credited, 20), (LampVerdict.TooLong, 15), (LampVerdict.TooHot, 10),
                (LampVerdict.NoOwnReading, 5),
            ],
            told);
    }

    [Fact]
    public void ACoatNobodyLevelled_IsTooEarly() =>
        Assert.Equal([LampVerdict.TooEarly], LampCredit.Along([Band], [new Spell(At(70), At(72))], [Read(70, 60), Read(72, 60)], null, At(90)).Select(p => p.Verdict));

    [Fact]
    public void WhatTheNextReadingMayTell_IsOpen_AndThenCounts()
    {
        OwnReading[] own = [.. Enumerable.Range(70, 6).Select(m => Read(m, 60))];
        Assert.Equal(5, LampCredit.Along([Band], [new Spell(At(70), null)], own, At(0), At(76)).Sum(p => p.Minutes), 1e-9);
        Assert.Equal(6, LampCredit.Along([Band], [new Spell(At(70), null)], [.. own, Read(76, 60)], At(0), At(76)).Sum(p => p.Minutes), 1e-9);
    }

    [Fact]
    public void OfTwoBands_TheOneThatGivesLess_Counts()
    {
        LampBand richer = Band with { PanelMinC = 58, ReferenceHoursPerMinute = 0.3 };
        ImmutableArray<LampPiece> pieces = LampCredit.Along([richer, Band], [new Spell(At(70), At(72))], [Read(70, 60), Read(72, 60)], At(0), At(90));
        Assert.Equal([0.2], pieces.Select(p => p.ReferenceHoursPerMinute));
    }

    private static ImmutableArray<LampPiece> Along(IReadOnlyList<OwnReading> own, Spell[] lit, double cureMinute) =>
        LampCredit.Along([Band], lit, own, At(cureMinute), At(1000));

    private static double Minutes(ImmutableArray<LampPiece> pieces, LampVerdict verdict) => pieces.Where(p => p.Verdict == verdict).Sum(p => p.Minutes);

    private static bool IsIn(OwnReading reading) => reading.PanelC >= Band.PanelMinC && reading.PanelC <= Band.PanelMaxC;

    private static double Overlap(DateTimeOffset from, DateTimeOffset to, Spell lit) =>
        Math.Max(0, ((to < lit.To!.Value ? to : lit.To.Value) - (from > lit.From ? from : lit.From)).TotalMinutes);

    private static OwnReading Read(double minute, double panelC) => new(At(minute), panelC, OwnReading.ReachOfProbe(TimeSpan.FromMinutes(1)));

    private static DateTimeOffset At(double minute) => Start + TimeSpan.FromMinutes(minute);
}
