using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using static CureWatch.Planning.StartReasonKind;

namespace CureWatch.Tests.Bays;

/// <summary>Whether a surface has cooled from a lamp has one answer: the cool-down, the start and the next act give the same.</summary>
public class AfterLampTests
{
    private const double Minute = 1 / 60.0;

    [Fact]
    public void Apply_WaitsUntilTheSurfaceHasCooled_AndNoLonger()
    {
        TestShop shop = Lit(new TestShop().Steady(0, 1), 0.5).Tap(1 + Minute, Did.PanelWiped).Steady(1 + (2 * Minute), 1 + (6 * Minute));
        DateTimeOffset cool = Assert.Single(shop.Report.CoolDowns).CoolDown.CoolFrom!.Value;
        StartDecision start = StartReport.Of(shop.Shop, "job-1").Decision;
        Assert.Equal([PanelHot, LampCoolDown], start.Answers[0].Reasons.Where(r => r.Weight != StartWeight.Notes).Select(r => r.Kind));
        Assert.Equal((StartVerdict.Wait, cool), (start.Verdict, start.From!.Latest!.Value));
        ToldAct next = shop.Report.Next[0];
        Assert.Equal((ActKind.Apply, true, cool, false), (next.Act.Kind, next.Act.LetCool, next.Act.From!.Value, next.Act.CanBeTold(shop.Shop.Now)));
        Assert.StartsWith("bonnet: let it cool first; apply paint from ", next.Text.ToString(), StringComparison.Ordinal);

        shop.Steady(1 + (7 * Minute), 2);
        Assert.True(cool < shop.Shop.Now);
        Assert.Empty(shop.Report.CoolDowns);
        start = StartReport.Of(shop.Shop, "job-1").Decision;
        Assert.DoesNotContain(start.Answers[0].Reasons, r => r.Kind is PanelHot or LampCoolDown or Lamp);
        shop.Tap(2, Did.PanelWiped).Steady(2 + Minute, 2.4);
        Assert.Equal("bonnet: apply paint now", shop.Report.Next[0].Text.ToString());
    }

    [Fact]
    public void Levelling_WaitsToo_AndCanStillBeToldByWhoDidItAllTheSame()
    {
        TestShop shop = Lit(new TestShop().Steady(0, 0.9).Tap(0.92, Did.Applied, 1, 1), 0.95);
        DateTimeOffset cool = Assert.Single(shop.Report.CoolDowns).CoolDown.CoolFrom!.Value;
        NextAct next = shop.Report.Next[0].Act;
        Assert.Equal((true, cool), (next.LetCool, next.From!.Value));
        Assert.Contains("let it cool first", shop.Report.Next[0].Text.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain(" now", shop.Report.Next[0].Text.ToString(), StringComparison.Ordinal);
        Assert.True(next.CanBeTold(shop.Shop.Now));
    }

    [Fact]
    public void WhileTheLampBurns_NothingIsToBeDoneNow()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.LampOn).Steady(1 + Minute, 1.2);
        Assert.StartsWith("bonnet: let it cool first; apply paint then. Not yet: A lamp is on ", shop.Report.Next[0].Text.ToString(), StringComparison.Ordinal);
        Assert.False(shop.Report.Next[0].Act.CanBeTold(shop.Shop.Now));
    }

    /// <summary>A lamp from an hour on until 09:00, and 60 °C read right after it.</summary>
    private static TestShop Lit(TestShop shop, double onHour) => shop
        .Tap(onHour, Did.LampOn).Until(1).Tap(1, Did.LampOff).Read(1, 20, 50).Tap(1 + (0.5 * Minute), Did.Measured, panelC: 60);
}
