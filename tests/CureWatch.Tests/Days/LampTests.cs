using CsCheck;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Days;

/// <summary>A lamp cures what it heats, and nothing else; what gets too hot is warned of while the lamp can still be switched off.</summary>
public class LampTests
{
    private static readonly Func<string, double, double> Cold = (_, _) => 20;
    private static readonly Func<string, double, double> BonnetHot = (surface, minute) => surface == "bonnet" ? LampDay.Heated(minute, 150, 180, 62) : 20;

    [Fact]
    public void ALampOnTheBonnet_IsCreditedThere_ForTheTimeInBand_AndNowhereElse()
    {
        LampDay lit = LampDay.Lived(400, BonnetHot, [("bonnet", 150, 180)]), unlit = LampDay.Lived(400, Cold, []);
        int inBand = Enumerable.Range(150, 30).Count(m => BonnetHot("bonnet", m) >= 55 && BonnetHot("bonnet", m + 1) >= 55);
        Assert.InRange(inBand, 15, 20);

        CoatLamp lamp = Assert.Single(lit.Coat("bonnet").Lamps);
        Assert.Equal(inBand, lamp.CreditedMinutes, 1e-6);
        Assert.Equal(30 - inBand, lamp.Refused.Single().Minutes, 1e-6);
        double savedMinutes = (unlit.KeepDry("bonnet").Likely!.Value - lit.KeepDry("bonnet").Likely!.Value).TotalMinutes;
        Assert.Equal((inBand * 0.2 * 60) - inBand, savedMinutes, 0.05); // the last tenth of a kelvin counts as air

        foreach (string other in new[] { "roof", "door" })
        {
            Assert.Empty(lit.Coat(other).Lamps);
            foreach ((Window without, Window with) in unlit.Coat(other).Windows.Zip(lit.Coat(other).Windows))
            {
                Assert.Equal((without.Stage, without.State), (with.Stage, with.State));
                Assert.InRange(LampDayWords.SecondsButForTheLatest(without, with), 0, 1);
                Assert.InRange(LampDayWords.SecondsLater(without, with), 0, 15 * 60); // the bonnet's probe told of no other panel meanwhile: that one was guessed
            }
        }
    }

    // Two sound probes half a kelvin apart are no heat: hours after the lamp the coat cures as one that never was under it.
    [Fact]
    public void APanelProbeThatReadsALittleAboveTheAir_DoesNotKeepTheCoatLit()
    {
        static double Above(string surface, double minute) => surface == "bonnet" ? Math.Max(20.5, LampDay.Heated(minute, 150, 165, 62)) : 20;
        LampDay lit = LampDay.Lived(600, Above, [("bonnet", 150, 165)]), unlit = LampDay.Lived(600, (s, _) => s == "bonnet" ? 20.5 : 20, []);
        double ratePerHour = Earned(lit) - Earned(LampDay.Lived(540, Above, [("bonnet", 150, 165)]));
        double usualPerHour = Earned(unlit) - Earned(LampDay.Lived(540, (s, _) => s == "bonnet" ? 20.5 : 20, []));
        Assert.Equal(usualPerHour, ratePerHour, 1e-3);

        static double Earned(LampDay day) => day.Coat("bonnet").ReferenceHours.Likely;
    }

    // A probe that stuck in the band earned the lamp every minute to its end, though nobody knew how hot the bonnet was.
    [Fact]
    public void AProbeThatStuckInTheBand_EarnsNothingSince()
    {
        LampDay lit = LampDay.Lived(400, (surface, minute) => BonnetHot(surface, Math.Min(minute, 164)), [("bonnet", 150, 180)]);
        int inBand = Enumerable.Range(150, 14).Count(m => BonnetHot("bonnet", m) >= 55 && BonnetHot("bonnet", m + 1) >= 55);
        Assert.Equal(inBand, Assert.Single(lit.Coat("bonnet").Lamps).CreditedMinutes, 1e-6);
    }

    [Fact]
    public void WhileTheLampBurns_NoWindowIsForetoldAsIfItBurntOn()
    {
        LampDay before = LampDay.Lived(149, BonnetHot, [("bonnet", 150, 180)]), during = LampDay.Lived(159, BonnetHot, [("bonnet", 150, 180)]);
        foreach ((DateTimeOffset? was, DateTimeOffset? isNow) in new[]
        {
            (before.KeepDry("bonnet").Likely, during.KeepDry("bonnet").Likely), (before.KeepDry("bonnet").Latest, during.KeepDry("bonnet").Latest),
        })
        {
            Assert.InRange((was!.Value - isNow!.Value).TotalMinutes, -0.1, 0.1);
        }
    }

    [Fact]
    public void ALampOverEverything_IsCreditedWhereSomebodyReads()
    {
        LampDay lit = LampDay.Lived(400, BonnetHot, [(null, 150, 180)]);
        Assert.True(lit.Coat("bonnet").Lamps[0].CreditedMinutes > 10);
        Assert.Equal(0, lit.Coat("roof").Lamps[0].CreditedMinutes);
        Assert.Equal((LampVerdict.NoOwnReading, 30.0), lit.Coat("roof").Lamps[0].Refused.Single());
    }

    [Fact]
    public void ASpotInBand_EveryFourMinutes_IsCreditedOnASurfaceWithoutAProbe()
    {
        LampDay lit = LampDay.Lived(140, Cold, []);
        lit.Take(Tap(141, Did.LampOn, "roof"));
        for (int minute = 150; minute <= 162; minute += 4)
        {
            lit.Take(Tap(minute, Did.Measured, "roof", 60));
        }

        lit.Take(Tap(165, Did.LampOff, "roof"));
        Assert.Equal(12, lit.Coat("roof").Lamps[0].CreditedMinutes, 1e-6);
    }

    [Fact]
    public void AFilmedSurface_IsWarnedOfBeforeItsLimit_OnceAnEpisode()
    {
        LampDay day = LampDay.Lived(300, (surface, minute) => surface == "wing" ? LampDay.Heated(minute, 150, 175, 70) : 20, [("wing", 150, 175)]);
        Warning warning = Assert.Single(day.Warnings(WarningKind.LampOverLimit));
        double crosses = Enumerable.Range(150, 25).First(m => LampDay.Heated(m, 150, 175, 70) >= 60);
        Assert.Equal("wing", warning.Surface);
        Assert.InRange((warning.RaisedAt - LampDay.At(150)).TotalMinutes, 1, crosses - 150 - 1);
        Assert.True(warning.Lead > TimeSpan.Zero);
        Assert.NotNull(warning.ClearedAt);
        Assert.Contains(HoldKind.Heat, day.Report.Ruling.Holds.Select(h => h.Kind));

        int inBand = Enumerable.Range(150, 25).Count(m => new[] { m, m + 1 }.All(at => LampDay.Heated(at, 150, 175, 70) is >= 55 and <= 60));
        Assert.Equal(inBand, day.Coat("wing").Lamps[0].CreditedMinutes, 1e-6); // the film's limit ends the band
    }

    [Fact]
    public void AFilmedSurface_SwitchedOffWhenWarned_StaysBelowItsLimit()
    {
        double warned = (LampDay.Lived(300, (s, m) => s == "wing" ? LampDay.Heated(m, 150, 175, 70) : 20, [("wing", 150, 175)])
            .Warnings(WarningKind.LampOverLimit).Single().RaisedAt - LampDay.At(0)).TotalMinutes;
        LampDay day = LampDay.Lived(300, (s, m) => s == "wing" ? LampDay.Heated(m, 150, warned + 1, 70) : 20, [("wing", 150, warned + 1)]);
        Assert.DoesNotContain(HoldKind.Heat, day.Report.Ruling.Holds.Select(h => h.Kind));
        Assert.NotNull(Assert.Single(day.Warnings(WarningKind.LampOverLimit)).ClearedAt);
    }

    [Fact]
    public void ALampInItsBand_IsNoWarning()
    {
        LampDay day = LampDay.Lived(400, BonnetHot, [("bonnet", 150, 180)]);
        Assert.Empty(day.Warnings(WarningKind.LampOverLimit));
        Assert.Empty(day.Warnings(WarningKind.PanelHot));
        Assert.Empty(day.Warnings(WarningKind.CureStalled));
    }

    // The lamp burns on, and is switched off, unheard: what the probe said last was of the bonnet alone, for good.
    [Fact]
    public void AProbeThatDiesUnderTheLamp_WarmsNoOtherSurface()
    {
        LampDay unlit = LampDay.Lived(480, Cold, []);
        LampDay dead = LampDay.Lived(480, (s, m) => s == "bonnet" && m > 170 ? double.NaN : BonnetHot(s, m), [("bonnet", 150, 180)]);
        foreach (string other in new[] { "roof", "door" })
        {
            Assert.InRange((dead.KeepDry(other).Likely!.Value - unlit.KeepDry(other).Likely!.Value).TotalMinutes, -1, 1);
            Assert.True(dead.KeepDry(other).Latest > unlit.KeepDry(other).Latest - TimeSpan.FromMinutes(1));
            Assert.True(dead.KeepDry(other).Earliest > unlit.KeepDry(other).Earliest - TimeSpan.FromMinutes(5));
        }
    }

    // Nobody promises to look again: a single spot warns while there is time, goes on to while the lamp burns, and not once the film has cooled.
    [Theory]
    [InlineData(155, 40)]
    [InlineData(160, 57)]
    public void ASingleSpotUnderALamp_WarnsBeforeTheLimit_UntilItHasCooled(double minute, double spotC)
    {
        LampDay day = LampDay.Lived(140, (_, _) => double.NaN, []);
        day.Take(Tap(150, Did.LampOn, "wing")).Take(Tap(minute, Did.Measured, "wing", spotC));
        for (int m = 150; m < 200; m++)
        {
            day.Air(m);
            if (m == 165)
            {
                day.Take(Tap(165, Did.LampOff, "wing"));
            }
        }

        double reaches = minute + ((60 - spotC) * (minute - 150) / (spotC - 20));
        Warning warning = Assert.Single(day.Warnings(WarningKind.LampOverLimit));
        Assert.True(warning.RaisedAt <= LampDay.At(reaches));
        Assert.InRange(warning.ClearedAt!.Value, LampDay.At(165), LampDay.At(170));
        Assert.DoesNotContain(HoldKind.Heat, day.Report.Ruling.Holds.Select(h => h.Kind));
    }

    [Fact]
    public void AColdSpotUnderALamp_IsNoWarning_AndAHotOneWithoutALampStandsUntilAColderOne()
    {
        LampDay day = LampDay.Lived(140, (_, _) => double.NaN, []);
        day.Take(Tap(150, Did.LampOn, "wing")).Take(Tap(170, Did.Measured, "wing", 30)).Take(Tap(180, Did.LampOff, "wing"));
        Assert.Empty(day.Warnings(WarningKind.LampOverLimit));
        day.Take(Tap(240, Did.Measured, "roof", 75));
        Assert.Null(Assert.Single(day.Warnings(WarningKind.LampOverLimit)).ClearedAt);
        day.Take(Tap(250, Did.Measured, "roof", 40));
        Assert.NotNull(Assert.Single(day.Warnings(WarningKind.LampOverLimit)).ClearedAt);
    }

    // A bay lets go of most readings a day later: a lamp's credit must not turn by it, nor a window by more than a second.
    [Fact]
    public void ADayLater_WhenReadingsWereLetGo_TheCreditIsWhatItWas()
    {
        double Restless(string surface, double minute) =>
            BonnetHot(surface, minute) + (surface == "bonnet" && minute is > 150 and < 180 ? 1.5 * Math.Sin(9 * minute) : 0);
        LampDay fresh = LampDay.Lived(190, Restless, [("bonnet", 150, 180)], perMinute: 4), old = LampDay.Lived(1500, Restless, [("bonnet", 150, 180)], perMinute: 4);
        Assert.InRange(fresh.Coat("bonnet").Lamps[0].CreditedMinutes, 5, 19);
        Assert.Equal(fresh.Coat("bonnet").Lamps[0].Pieces.AsEnumerable(), old.Coat("bonnet").Lamps[0].Pieces);
        Assert.InRange((fresh.KeepDry("bonnet").Likely!.Value - old.KeepDry("bonnet").Likely!.Value).TotalSeconds, -1, 1);
    }

    // Releases: never earlier than the band's credit explains, whatever the lamp does.
    [Fact]
    public void ARelease_IsNeverEarlierThanTheCreditExplains()
    {
        LampDay unlit = LampDay.Lived(300, Cold, []);
        Gen.Select(Gen.Double[30, 110], Gen.Double[2, 40], Gen.Int[70, 200], Gen.Int[1, 60]).Sample(
            (finalC, tau, on, length) =>
            {
                double PanelC(string surface, double minute) => surface == "bonnet" ? LampDay.Heated(minute, on, on + length, finalC, tau) : 20;
                LampDay lit = LampDay.Lived(300, PanelC, [("bonnet", on, on + length)]);
                double credited = lit.Coat("bonnet").Lamps.Sum(l => l.CreditedMinutes);
                double saved = (unlit.KeepDry("bonnet").Latest!.Value - lit.KeepDry("bonnet").Latest!.Value).TotalMinutes;
                Assert.True(credited <= LampDay.Band.MaxMinutes + 1e-6);
                Assert.True(saved <= (credited * 0.2 * 60 * 1.001) + 3, $"saved {saved} min for {credited} credited");
            },
            iter: 20);
    }

    private static Message.Tapped Tap(double minute, Did did, string surface, double? panelC = null) =>
        new Message.Tapped("job-1", new Tap($"{did}-{minute}", LampDay.At(minute), LampDay.At(minute), surface, did, PanelC: panelC));
}

/// <summary>Words for a lamp day.</summary>
internal static class LampDayWords
{
    /// <summary>How far apart two windows are at most [s], but for their latest ends.</summary>
    public static double SecondsButForTheLatest(Window a, Window b) => new[]
    {
        a.OpensAt.Earliest - b.OpensAt.Earliest, a.OpensAt.Likely - b.OpensAt.Likely,
        a.ClosesAt?.Earliest - b.ClosesAt?.Earliest, a.ClosesAt?.Likely - b.ClosesAt?.Likely,
    }.Max(d => Math.Abs(d?.TotalSeconds ?? 0));

    /// <summary>How much later the latest ends of one window are than another's [s]: the least and the most of both, a rounding aside.</summary>
    public static double SecondsLater(Window a, Window b) => new[] { b.OpensAt.Latest - a.OpensAt.Latest, b.ClosesAt?.Latest - a.ClosesAt?.Latest }
        .Select(d => d?.TotalSeconds ?? 0).Aggregate((one, other) => Math.Min(one, other) < -1 ? Math.Min(one, other) : Math.Max(0, Math.Max(one, other)));

    public static TimeBounds KeepDry(this LampDay day, string surface) => day.Window(surface, WindowStage.KeepDry).ClosesAt!;
}
