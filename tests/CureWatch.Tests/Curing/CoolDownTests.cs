using CsCheck;
using CureWatch.Curing;
using CureWatch.Panels;

namespace CureWatch.Tests.Curing;

/// <summary>When a surface that was under a lamp may be worked on again.</summary>
public class CoolDownTests
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);
    private static readonly TimeSpan Tau = TimeSpan.FromMinutes(6);
    private static readonly Spell Lamp = new(At(-20), At(0));

    // τ·ln((60 − 20)/(25 − 20)) = 6 min · ln 8 = 12.48 min.
    [Fact]
    public void CoolFrom_IsByTheMaterialsTimeConstant() =>
        Assert.Equal(12.48, (Of(Lamp, [Read(0, 60)], 20, 30, 65, Tau, At(1))!.CoolFrom!.Value - Start).TotalMinutes, 0.01);

    [Fact]
    public void CoolFrom_IsByTheSurfacesOwn_WhereTwoReadingsTellIt() =>
        Assert.Equal(
            24.95,
            (Of(Lamp, [Read(0, 60), Read(4, 20 + (40 * Math.Exp(-4.0 / 12)))], 20, 30, 65, Tau, At(5))!.CoolFrom!.Value - Start).TotalMinutes,
            0.01);

    [Fact]
    public void TheSheetsLimit_CountsWhereItIsLower() => Assert.Equal(22, Of(Lamp, [Read(0, 60)], 20, 22, 65, Tau, At(1))!.LimitC);

    [Fact]
    public void WhileTheLampBurns_NothingSaysWhen() => Assert.Null(Of(Lamp with { To = At(30) }, [Read(0, 60)], 20, 30, 65, Tau, At(1))!.CoolFrom);

    [Fact]
    public void InAirWarmerThanTheSheetAllows_NothingSaysWhen() => Assert.Null(Of(Lamp, [Read(0, 60)], 33, 30, 65, Tau, At(1))!.CoolFrom);

    [Fact]
    public void WhereNobodyReadIt_ItIsAsHotAsTheLampMayHaveMadeIt()
    {
        CoolDown warm = Of(Lamp, [Read(-60, 20)], 20, 30, 65, Tau, At(0.1))!;
        Assert.False(warm.IsMeasured);
        Assert.InRange(warm.PanelC, 64, 65);
    }

    [Fact]
    public void AReadingBelowTheLimit_EndsIt() => Assert.Null(Of(Lamp, [Read(0, 60), Read(1, 24)], 20, 30, 65, Tau, At(1)));

    [Fact]
    public void AtTheTimeForetold_ItHasCooled_AndNotBefore() => Gen.Select(Gen.Double[30, 90], Gen.Double[0, 60], Gen.Double[0.1, 0.999]).Sample((hotC, minute, share) =>
    {
        if (Of(Lamp, [Read(0, hotC)], 20, 30, 65, Tau, At(minute)) is { } warm)
        {
            Assert.NotNull(Of(Lamp, [Read(0, hotC)], 20, 30, 65, Tau, At(minute) + ((warm.CoolFrom!.Value - At(minute)) * share)));
            Assert.Null(Of(Lamp, [Read(0, hotC)], 20, 30, 65, Tau, warm.CoolFrom!.Value + TimeSpan.FromMilliseconds(1)));
        }
    });

    [Fact]
    public void OnceCool_ItSaysSinceWhen_AndWhetherAReadingTells()
    {
        CoolDown read = CoolDown.After(Lamp, [Read(0, 60)], 20, 30, 65, Tau, At(20)), assumed = CoolDown.After(Lamp, [], 20, 30, 65, Tau, At(20));
        Assert.Equal((true, true, false), (read.HasCooled, read.IsFromReading, read.IsMeasured && read.CoolFrom > At(20)));
        Assert.Equal((true, false), (assumed.HasCooled, assumed.IsFromReading));
    }

    private static CoolDown? Of(Spell lamp, OwnReading[] own, double airC, double? panelMaxC, double assumedC, TimeSpan tau, DateTimeOffset now) =>
        CoolDown.After(lamp, own, airC, panelMaxC, assumedC, tau, now) is { HasCooled: false } warm ? warm : null;

    private static OwnReading Read(double minute, double panelC) => new(At(minute), panelC, OwnReading.ReachOfSpot);

    private static DateTimeOffset At(double minute) => Start + TimeSpan.FromMinutes(minute);
}
