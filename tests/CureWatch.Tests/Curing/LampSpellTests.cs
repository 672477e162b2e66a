using CureWatch.Curing;
using CureWatch.Panels;

namespace CureWatch.Tests.Curing;

/// <summary>When a lamp burns, as people tell it and as the surface shows.</summary>
public class LampSpellTests
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Told_OnAndOff_IsASpellEach() => Assert.Equal(
        [new Spell(At(1), At(5)), new Spell(At(7), null)],
        LampSpell.Over([Tap(1, Did.LampOn), Tap(2, Did.LampOn), Tap(3, Did.Measured), Tap(5, Did.LampOff), Tap(6, Did.LampOff), Tap(7, Did.LampOn)], 1));

    /// <summary>Nobody told that the first was off; told twice within half an hour it is one lamp.</summary>
    [Fact]
    public void Told_OnAgainMuchLater_IsAnotherLamp()
    {
        Assert.Equal([new Spell(At(1), At(121)), new Spell(At(121), At(140))], LampSpell.Over([Tap(1, Did.LampOn), Tap(121, Did.LampOn), Tap(140, Did.LampOff)], 1));
        Assert.Equal([new Spell(At(1), At(40))], LampSpell.Over([Tap(1, Did.LampOn), Tap(30, Did.LampOn), Tap(40, Did.LampOff)], 1));
    }

    [Fact]
    public void Told_AMove_LeavesTheLampBehind() =>
        Assert.Equal([new Spell(At(1), At(5))], LampSpell.Over([Tap(1, Did.LampOn), Tap(5, Did.Moved)], 1));

    /// <summary>One lamp that walks along a bonnet, and one over all of it: each section has what was over it, the surface what was over any.</summary>
    [Fact]
    public void BySection_ALampThatWalks_IsOverOneAtATime()
    {
        Tap[] told = [Tap(1, Did.LampOn, 1), Tap(5, Did.LampOn, 2), Tap(9, Did.LampOff, 2), Tap(60, Did.LampOn), Tap(70, Did.LampOff, 1), Tap(80, Did.LampOff), Tap(90, Did.LampOn, 4)];
        var lamps = LampSpell.BySection(told, 3);

        Assert.Equal([new Spell(At(1), At(5)), new Spell(At(60), At(70))], lamps[0]);
        Assert.Equal([new Spell(At(5), At(9)), new Spell(At(60), At(80))], lamps[1]);
        Assert.Equal([new Spell(At(60), At(80))], lamps[2]);
        Assert.Equal([new Spell(At(1), At(5)), new Spell(At(5), At(9)), new Spell(At(60), At(80))], LampSpell.Together(lamps));
        Assert.Equal([new Spell(At(1), null)], LampSpell.Together([[new Spell(At(1), null)], [new Spell(At(3), At(9))]]));
        Assert.Empty(LampSpell.BySection([Tap(1, Did.LampOff)], 3));
    }

    [Fact]
    public void Ended_WhereNobodyTold_EndsWhenTheSurfaceFallsByTenKelvins() => Assert.Equal(
        At(6), new Spell(At(1), null).Ended([Read(0, 20), Read(2, 40), Read(3, 60), Read(4, 52), Read(5, 61), Read(6, 51), Read(7, 40)]).To);

    [Fact]
    public void Ended_WhereNobodyTold_LastsFourHoursAfterTheHeatWasSeenLast()
    {
        Assert.Equal(At(241), new Spell(At(1), null).Ended([]).To);
        Assert.Equal(At(241), new Spell(At(1), null).Ended([Read(0, 20), Read(60, 21)]).To);
        Assert.Equal(At(270), new Spell(At(1), null).Ended([Read(0, 20), Read(30, 60)]).To);
    }

    [Fact]
    public void Ended_WhereSomebodyTold_IsAsTold() =>
        Assert.Equal(At(9), new Spell(At(1), At(9)).Ended([Read(2, 60), Read(3, 20)]).To);

    private static Tap Tap(double minute, Did did, int? section = null) => new(null, At(minute), At(minute), "bonnet", did, Section: section);

    private static OwnReading Read(double minute, double panelC) => new(At(minute), panelC, OwnReading.ReachOfSpot);

    private static DateTimeOffset At(double minute) => Start + TimeSpan.FromMinutes(minute);
}
