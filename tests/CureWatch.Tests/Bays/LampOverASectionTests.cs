using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>A lamp over one of three sections that heat can spoil: what is read elsewhere is no reading of it, and what is elsewhere is not warm.</summary>
public class LampOverASectionTests
{
    private const double On = 65 / 60.0;

    [Theory]
    [InlineData(1, 0)]
    [InlineData(3, 1)] // it counted as read
    [InlineData(null, 0)] // nobody knows where, and whoever stands beside the lamp reads what it heats
    public void Spot_OnAnotherSection_IsNoReadingOfIt(int? section, int warnings)
    {
        TestShop shop = Levelled().Tap(On, Did.LampOn, section: 1).Tap(On + 0.02, Did.Measured, section: section, panelC: 21).Until(On + 0.06);
        Assert.Equal(warnings, shop.Warnings(WarningKind.LampUnread).Count());
    }

    [Theory]
    [InlineData(45, 0)]
    [InlineData(20, 1)] // it is on another section
    public void ProbeOnTheSurface_ReadsTheLampOnceItShowsIt(double reachesC, int warnings)
    {
        TestShop shop = Levelled(TestShop.Panel("bonnet"));
        for (double minute = 55; minute <= 75; minute++)
        {
            _ = minute == 65 ? shop.Tap(On, Did.LampOn, section: 1) : shop;
            shop.ReadPanel((minute + 0.1) / 60, minute <= 65 ? 20 : reachesC - ((reachesC - 20) * Math.Exp((65 - minute) / 3)), "bonnet").Read((minute + 0.2) / 60, 20, 50);
        }

        Assert.Equal(warnings, shop.Warnings(WarningKind.LampUnread).Count());
    }

    // All three had to cool first.
    [Fact]
    public void OnlyTheSectionUnderTheLamp_HasToCool()
    {
        TestShop shop = Levelled(layers: 2).Steady(1.1, 3.9).Tap(3.9, Did.LampOn, section: 1).Tap(3.92, Did.Measured, section: 1, panelC: 60)
            .Tap(3.95, Did.LampOff, section: 1).Tap(3.96, Did.Measured, section: 1, panelC: 58).Until(3.97);
        SurfaceStory story = shop.Shop.Jobs["job-1"].Stories[0];
        var present = new Present(shop.Shop, shop.Shop.Now);
        Assert.Equal([true, false, false], CoolDowns.BySection(shop.Shop, present, shop.Shop.Jobs["job-1"].Job, story).Select(c => c is not null));
        Assert.NotNull(CoolDowns.Of(shop.Shop, present, shop.Shop.Jobs["job-1"].Job, story));
        Assert.Contains(StartReport.Of(shop.Shop, "job-1").Decision.Answers.Single().Reasons, r => r.Kind == StartReasonKind.LampCoolDown);
    }

    private static TestShop Levelled(CureWatch.Readings.Probe? panel = null, int layers = 1)
    {
        TestShop shop = panel is null ? new(layers: layers, sections: 3) : new(layers: layers, sections: 3, probes: [TestShop.Air("air-1"), panel]);
        shop.Steady(0, 0.9);
        for (int section = 1; section <= 3; section++)
        {
            shop.Tap(0.9 + (section * 0.01), Did.Applied, layer: 1, section: section);
        }

        return shop.Tap(1, Did.Levelled).Steady(1.01, 1.05);
    }
}
