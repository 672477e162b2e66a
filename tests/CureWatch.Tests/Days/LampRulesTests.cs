using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Reports;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Days;

/// <summary>Where what a lamp does, what twins say and which probe speaks for a surface meet.</summary>
public class LampRulesTests
{
    private static readonly Func<string, double, double> BonnetHot = (probe, minute) => probe == "bonnet" ? LampDay.Heated(minute, 150, 240, 62) : 20;
    private static readonly Func<string, double, double> BonnetLeftHot = (probe, minute) => probe == "bonnet" ? LampDay.Heated(minute, 150, 9999, 62) : 20;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void ProbeUnderALamp_HasNoTwins_UntilItHasCooled(int twins)
    {
        ProbeMount[] more = [.. Enumerable.Range(1, twins).Select(i => new ProbeMount(TestShop.Panel($"steel-{i}"), Material.Steel, Place.Outside))];
        LampDay alone = LampDay.Lived(400, BonnetHot, [("bonnet", 150, 240)]), among = LampDay.Lived(400, BonnetHot, [("bonnet", 150, 240)], 1, more);
        Assert.Empty(among.Warnings(WarningKind.ProbeDisagreeing));
        Assert.False(among.Shop.Tally.Rejected.ContainsKey(Disbelief.Disagreeing));
        Assert.True(alone.Coat("bonnet").Lamps.Single().CreditedMinutes > 10);
        Assert.Equal(alone.Coat("bonnet").Lamps.Single().CreditedMinutes, among.Coat("bonnet").Lamps.Single().CreditedMinutes);
    }

    [Fact]
    public void ProbeThatStaysHot_AfterTheLampIsOff_IsComparedAgain()
    {
        ProbeMount[] more = [.. Enumerable.Range(1, 2).Select(i => new ProbeMount(TestShop.Panel($"steel-{i}"), Material.Steel, Place.Outside))];
        LampDay day = LampDay.Lived(500, (probe, minute) => probe == "bonnet" && minute > 150 ? 30 : 20, [("bonnet", 150, 180)], 1, more);
        Assert.Equal("bonnet", Assert.Single(day.Warnings(WarningKind.ProbeDisagreeing)).Subject.Probe);
    }

    [Fact]
    public void ColdestPanel_ThatIsReckoned_IsNotMeasured_AndHasTheDoubtOfAReckonedOne()
    {
        AirReport air = BayReport.Of(LampDay.Lived(120, (_, _) => 26, []).Shop, "bay-1").Airs[0];
        Assert.Equal(20, air.Climate!.Panel!.Value.Degrees, 0.01);
        Assert.False(air.IsPanelMeasured);
        Assert.Equal(SpreadDoubt.Of(air.Climate, 0.3, 2, null), air.Doubt);
    }

    [Fact]
    public void ColdestPanel_WithAProbe_IsMeasured_AndHasItsLimit()
    {
        AirReport air = BayReport.Of(LampDay.Lived(120, (_, minute) => 20 - (minute / 20), []).Shop, "bay-1").Airs[0];
        Assert.Equal(14, air.Climate!.Panel!.Value.Degrees, 0.01);
        Assert.True(air.IsPanelMeasured);
        Assert.Equal(SpreadDoubt.Of(air.Climate, 0.3, 2, 0.5), air.Doubt);
    }

    [Theory]
    [InlineData(true, 480 + (4 * 60))]
    [InlineData(false, 150 + (4 * 60))]
    public void LampNobodySwitchedOff_BurnsForFourHoursAfterItsHeatWasSeenLast_ForEverybody(bool isSeen, double endMinute)
    {
        LampDay day = LampDay.Lived(480, isSeen ? BonnetLeftHot : (_, _) => 20, [("bonnet", 150, 9999)]);
        NearbyLamp lamp = Assert.Single(day.Shop.Bays["bay-1"].Lamps);
        DateTimeOffset end = LampDay.At(endMinute) + NearbyLamp.Afterglow;
        Assert.True(lamp.MayWarmAt(day.Shop, end));
        Assert.False(lamp.MayWarmAt(day.Shop, end + TimeSpan.FromMinutes(1)));
    }

    [Fact]
    public void LampLeftOn_IsNoHotPanel_WhileItsHeatIsSeen() =>
        Assert.Empty(LampDay.Lived(600, BonnetLeftHot, [("bonnet", 150, 9999)]).Warnings(WarningKind.PanelHot));

    [Fact]
    public void ProbeNamedForASurface_IsTheOneItsCureGoesBy_AndOthersStillGoByTheColdest()
    {
        var named = new ProbeMount(TestShop.Panel("clip"), Material.Steel, Place.Outside, "roof");
        LampDay both = LampDay.Lived(300, (probe, _) => probe == "clip" ? 21.5 : 20, [], 1, named);
        LampDay warm = LampDay.Lived(300, (_, _) => 21.5, [], 1, named), cool = LampDay.Lived(300, (_, _) => 20, [], 1, named);
        Assert.Equal(KeepDry(warm, "roof"), KeepDry(both, "roof"));
        Assert.Equal(KeepDry(cool, "bonnet"), KeepDry(both, "bonnet"));
        Assert.NotEqual(KeepDry(both, "bonnet").Likely, KeepDry(both, "roof").Likely);
    }

    [Fact]
    public void ProbeNamedForASurface_WhileItsCoatCures_LosesNothingOfIt()
    {
        LampDay day = LampDay.Lived(300, (_, _) => 20, []);
        TimeBounds before = KeepDry(day, "bonnet");
        foreach (string? surface in new[] { "bonnet", null })
        {
            ShopPlan plan = day.Shop.Plan;
            BayPlan bay = plan.Bays[0];
            day.Take(new Message.PlanChanged(
                plan with { Bays = [bay with { Probes = bay.Probes.SetItem(1, bay.Probes[1] with { Surface = surface }) }] }, LampDay.At(300)));
            Assert.Equal(before.Likely!.Value, KeepDry(day, "bonnet").Likely!.Value, TimeSpan.FromSeconds(1));
        }
    }

    private static TimeBounds KeepDry(LampDay day, string surface) => day.Window(surface, WindowStage.KeepDry).ClosesAt!;
}
