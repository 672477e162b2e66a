using CureWatch.Curing;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Days;

/// <summary>A car in a hall whose roof and walls are colder than its air. Common practice, no source.</summary>
public class ColdHallTests
{
    private static readonly WindowStage[] Waited = [WindowStage.KeepDry, WindowStage.NoWash, WindowStage.FullCure];

    [Theory]
    [InlineData(20, 50)]
    [InlineData(12, 75)]
    [InlineData(28, 40)]
    public void PanelNobodyMeasures_IsWaitedForLonger_AndMovesNoDeadlineAndNothingLikely(double airC, double humidityPct)
    {
        TestShop modelled = Day([TestShop.Air("air-1")], airC, humidityPct), mild = Day([TestShop.Air("air-1"), Outdoors], airC, humidityPct, outdoorsC: airC + 5);
        foreach (WindowStage stage in Waited)
        {
            TimeBounds colder = modelled.Window(stage).ClosesAt!, same = mild.Window(stage).ClosesAt!;
            Assert.True(colder.Latest > same.Latest, $"{stage}");
            Assert.Equal(same.Earliest!.Value, colder.Earliest!.Value, TimeSpan.FromMilliseconds(1));
            Assert.Equal(same.Likely!.Value, colder.Likely!.Value, TimeSpan.FromMilliseconds(1));
        }

        Window recoat = modelled.Window(WindowStage.Recoat), sameRecoat = mild.Window(WindowStage.Recoat);
        Assert.True(recoat.OpensAt.Latest > sameRecoat.OpensAt.Latest);
        Assert.Equal(sameRecoat.ClosesAt!.Earliest!.Value, recoat.ClosesAt!.Earliest!.Value, TimeSpan.FromMilliseconds(1));
        Assert.Equal(mild.Window(WindowStage.LevelOff).ClosesAt!.Earliest!.Value, modelled.Window(WindowStage.LevelOff).ClosesAt!.Earliest!.Value, TimeSpan.FromMilliseconds(1));
        Assert.Contains("2 K colder than the air", modelled.Report.Assumes.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("colder than the air", mild.Report.Assumes.ToString(), StringComparison.Ordinal);
    }

    // The panel is truly colder all the while: what is told of it from the air alone is never sooner than what its probe tells.
    [Theory]
    [InlineData(-5.0, 4.5)]
    [InlineData(5.0, 2.8)]
    [InlineData(null, 1.9)]
    public void PanelTrulyColder_IsNotReadySoonerThanItsProbeWouldTell(double? outdoorsC, double colderK)
    {
        Probe[] probes = [TestShop.Air("air-1"), .. outdoorsC is null ? Array.Empty<Probe>() : [Outdoors]];
        TestShop modelled = Day(probes, 20, 50, outdoorsC), measured = Day([.. probes, TestShop.Panel("panel-1")], 20, 50, outdoorsC, panelC: 20 - colderK);
        Assert.True(modelled.Window(WindowStage.KeepDry).ClosesAt!.Latest >= measured.Window(WindowStage.KeepDry).ClosesAt!.Latest);
        Assert.DoesNotContain("colder than the air", measured.Report.Assumes.ToString(), StringComparison.Ordinal);
    }

    // A shop has one sky: whichever bay its probe outdoors belongs to.
    [Fact]
    public void OutdoorProbe_OfAnotherBay_CountsAsItsOwn()
    {
        TestShop own = Day([TestShop.Air("air-1"), Outdoors], 20, 50, outdoorsC: -5), other = Day([TestShop.Air("air-1"), Outdoors], 20, 50, outdoorsC: -5, yard: "bay-2");
        Assert.Equal(own.Window(WindowStage.KeepDry).ClosesAt, other.Window(WindowStage.KeepDry).ClosesAt);
        Assert.NotEqual(Day([TestShop.Air("air-1")], 20, 50).Window(WindowStage.KeepDry).ClosesAt, other.Window(WindowStage.KeepDry).ClosesAt);
    }

    // What a colder panel does to a cure says nothing of water: it is warned of by what is likely.
    [Fact]
    public void PanelNobodyMeasures_InAirThatWouldWetOneThreeKelvinsColder_IsNoWater()
    {
        TestShop shop = Day([TestShop.Air("air-1")], 15, 85);
        Assert.Empty(shop.Warnings(CureWatch.Warnings.WarningKind.Condensing));
    }

    private static Probe Outdoors => TestShop.Air("yard") with { Measures = Measures.Outdoor };

    private static TestShop Day(Probe[] probes, double airC, double humidityPct, double? outdoorsC = null, double? panelC = null, string yard = "bay-1")
    {
        TestShop shop = new(probes: probes);
        for (int minute = 0; minute <= 6 * 60; minute++)
        {
            double hour = minute / 60.0;
            shop.Read(hour, airC, humidityPct);
            shop = outdoorsC is { } out1 ? shop.Read(hour, out1, 60, "yard", yard) : shop;
            shop = panelC is { } panel ? shop.ReadPanel(hour, panel) : shop;
            if (minute == 60)
            {
                shop.Tap(1, Did.Applied).Tap(1 + (4 / 60.0), Did.Levelled);
            }
        }

        return shop;
    }
}
