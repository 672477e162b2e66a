using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Tests.Days;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>
/// A lamp over what heat can spoil is read or switched off: whoever told it is told so within two minutes, once a lamp. Common practice, no source.
/// </summary>
public class UnreadLampTests
{
    private const double On = 65;

    [Fact]
    public void NobodyReads_IsToldTwoMinutesAfterTheLamp_UntilItIsOff()
    {
        TestShop shop = Coated().Tap(On / 60, Did.LampOn).Until((On + 1.9) / 60);
        Assert.Empty(Told(shop));
        Warning warning = Assert.Single(Told(shop.Until((On + 40) / 60)));
        Assert.Equal(At(On + 2), warning.RaisedAt);
        Assert.Equal("bonnet", warning.Surface);
        Assert.Null(warning.ClearedAt);
        Assert.Equal(At(On + 41), Assert.Single(Told(shop.Tap((On + 41) / 60, Did.LampOff).Until(6))).ClearedAt);
    }

    [Fact]
    public void NobodyReadsAndNobodySwitchesOff_IsOverOnceTheLampCountsAsBurntOut() =>
        Assert.Equal(At(On) + LampSpell.Longest, Assert.Single(Told(Coated().Tap(On / 60, Did.LampOn).Until(8))).ClearedAt);

    [Fact]
    public void WithoutAHeatLimit_NothingIsSpoiled() =>
        Assert.Empty(Told(Coated(heatMaxC: null).Tap(On / 60, Did.LampOn).Until(3)));

    [Theory]
    [InlineData(4, 0)] // every four minutes: kept up
    [InlineData(9, 0)] // seldom, and nobody is nagged
    [InlineData(25, 1)] // and now nobody is there
    public void ReadByHand_IsToldAgainOnlyWhereItIsLeftAlone(double everyMinutes, int times)
    {
        TestShop shop = Coated().Tap(On / 60, Did.LampOn).Tap((On + 1) / 60, Did.Measured, panelC: 21);
        for (double minute = On + 1 + everyMinutes; minute < On + 30; minute += everyMinutes)
        {
            shop.Tap(minute / 60, Did.Measured, panelC: 30);
        }

        Assert.Equal(times, Told(shop).Count());
    }

    [Fact]
    public void ReadByHandAfterTheWarning_IsOverAtOnce()
    {
        TestShop shop = Coated().Tap(On / 60, Did.LampOn).Tap((On + 4) / 60, Did.Measured, panelC: 25).Until((On + 13) / 60);
        Assert.Equal(At(On + 4), Assert.Single(Told(shop)).ClearedAt);
        Assert.Equal(At(On + 14), Told(shop.Until((On + 20) / 60)).Last().RaisedAt);
    }

    /// <summary>By what stands in the shop's settings and on either side of it: a probe's clock is never exact.</summary>
    [Theory]
    [InlineData(1, 0)]
    [InlineData(2, 0)]
    [InlineData(4.9, 0)]
    [InlineData(7, 1)]
    [InlineData(10, 1)]
    [InlineData(20, 1)]
    public void ProbeOfItsOwn_IsEnoughIfItSpeaksOftenEnough_AndIsMissedOnceALamp(double everyMinutes, int times)
    {
        TestShop shop = Lit(everyMinutes, (minute, i) => minute + (i % 2 == 0 ? 0 : 0.05), "bonnet");
        Assert.Equal(times, Told(shop).Count());
        Assert.All(Told(shop), w => Assert.Equal(At(On + 2), w.RaisedAt));
        Assert.All(Told(shop), w => Assert.Equal(At(On + 60), w.ClearedAt));
    }

    [Fact]
    public void ProbeAtTheLimitOfOftenEnough_NeverChatters() =>
        Assert.InRange(Told(Lit(5, (minute, i) => minute + (0.03 * Math.Sin(17 * i)), "bonnet")).Count(), 0, 1);

    [Fact]
    public void ProbeOfItsOwnThatFallsSilent_IsMissed()
    {
        TestShop shop = Lit(1, (minute, _) => minute is > On + 10 and < On + 30 ? double.NaN : minute, "bonnet");
        Warning warning = Assert.Single(Told(shop));
        Assert.Equal(At(On + 14), warning.RaisedAt);
        Assert.Equal(At(On + 31), warning.ClearedAt);
    }

    /// <summary>A probe on the material shows the heat by its second reading, and nobody was told anything.</summary>
    [Fact]
    public void ProbeThatMayBeTheOne_HasFiveMinutesToShowIt()
    {
        Assert.Empty(Told(Lit(2, (minute, _) => minute, "steel", Material.Steel)));
        Warning warning = Assert.Single(Told(Lit(2, (minute, _) => minute, "steel", Material.Steel, finalC: 21)));
        Assert.Equal(At(On + 5), warning.RaisedAt);
        Assert.Equal(At(On + 2), Assert.Single(Told(Lit(2, (minute, _) => minute, "door", Material.Aluminium))).RaisedAt);
    }

    /// <summary>Who is told to switch it off already needs no second voice.</summary>
    [Fact]
    public void TooHotAlready_IsNotToldTwice()
    {
        TestShop shop = Coated().Tap(On / 60, Did.LampOn).Tap((On + 1) / 60, Did.Measured, panelC: 69).Until((On + 40) / 60);
        _ = Assert.Single(shop.Warnings(WarningKind.LampOverLimit));
        Assert.Empty(Told(shop));
    }

    /// <summary>Told without a surface it is one lamp, and one warning for a whole car; who reads it anywhere reads it.</summary>
    [Fact]
    public void LampOverTheWholeCar_IsOneWarning()
    {
        (string?, double, double)[] lamp = [(null, 70, 100)];
        Warning warning = Assert.Single(LampDay.Lived(110, (_, _) => double.NaN, lamp).Warnings(WarningKind.LampUnread));
        Assert.Equal((null, At(72), At(100)), (warning.Surface, warning.RaisedAt, warning.ClearedAt!.Value));
        Assert.Empty(LampDay.Lived(110, (probe, minute) => probe == "wing" ? LampDay.Heated(minute, 70, 100, 55) : double.NaN, lamp).Warnings(WarningKind.LampUnread));
    }

    [Fact]
    public void CarThatLeft_HasNoLamp()
    {
        TestShop shop = Coated().Tap(On / 60, Did.LampOn).Until((On + 3) / 60).Take(new Message.CarLeft("job-1", At(On + 5))).Until(8);
        Assert.Equal(At(On + 5), Assert.Single(Told(shop)).ClearedAt);
    }

    private static TestShop Lit(double everyMinutes, Func<double, int, double> at, string probe, Material? material = null, double finalC = 55)
    {
        var mounted = TestShop.Panel(probe) with { Every = TimeSpan.FromMinutes(everyMinutes) };
        TestShop shop = Coated(probes: [TestShop.Air("air-1"), mounted], material: material);
        var read = new List<(double Minute, bool IsTap)> { (On, true), (On + 60, true) };
        for (int i = 0; (i * everyMinutes) + 1 < 140; i++)
        {
            read.Add((at(1 + (i * everyMinutes), i), false));
        }

        foreach ((double minute, bool isTap) in read.Where(r => r.Minute > 5.2).OrderBy(r => r.Minute))
        {
            shop = isTap ? shop.Tap(minute / 60, minute == On ? Did.LampOn : Did.LampOff) : shop.ReadPanel(minute / 60, PanelC(minute, finalC), probe);
        }

        return shop.Until(3);
    }

    private static double PanelC(double minute, double finalC) => Math.Round(
        minute <= On ? 20 + (0.1 * Math.Sin(minute))
        : minute <= On + 60 ? finalC - ((finalC - 20) * Math.Exp((On - minute) / 5))
        : 20 + ((finalC - 20) * Math.Exp((On + 60 - minute) / 5)), 1);

    private static TestShop Coated(double? heatMaxC = 70, Probe[]? probes = null, Material? material = null)
    {
        var shop = new TestShop(TestShop.Paint(heatMaxC: heatMaxC), probes: probes ?? []);
        if (material is not null)
        {
            BayPlan[] bays = [.. shop.Shop.Plan.Bays.Select(b => b with { Probes = [.. b.Probes.Select(m => m.Probe.Measures == Measures.Panel ? m with { Material = material } : m)] })];
            shop.Take(new Message.PlanChanged(shop.Shop.Plan with { Bays = [.. bays] }, At(0)));
        }

        return shop.Steady(0, 0.05).Tap(0.05, Did.Applied).Tap(0.08, Did.Levelled);
    }

    private static DateTimeOffset At(double minute) => TestShop.At(minute / 60);

    private static IEnumerable<Warning> Told(TestShop shop) => shop.Warnings(WarningKind.LampUnread);
}
