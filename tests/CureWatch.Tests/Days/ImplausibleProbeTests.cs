using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Warnings;
using static CureWatch.Curing.Did;

namespace CureWatch.Tests.Days;

/// <summary>A probe that says what no sound sensor can is told as such, once, and counts as a gap. Common practice, no source.</summary>
public class ImplausibleProbeTests
{
    [Theory]
    [InlineData(-55, 50, Disbelief.OutOfRange)]
    [InlineData(20, 0, Disbelief.OutOfRange)]
    [InlineData(20, 140, Disbelief.OutOfRange)]
    public void ProbeAtFault_IsToldOnce_NotAlsoAsSilent_AndEarnsAsAGap(double c, double pct, Disbelief why)
    {
        TestShop broken = Day(hour => hour > 3 ? (c, pct) : Lively(hour)), silent = Day(hour => hour > 3 ? null : Lively(hour));
        Warning warning = Assert.Single(broken.Warnings(WarningKind.ProbeImplausible));
        Assert.Equal(TestShop.At(3 + (11 / 60.0)), warning.RaisedAt, TimeSpan.FromMinutes(1));
        Assert.Null(warning.ClearedAt);
        Assert.Contains("air-1", warning.Detail?.ToString());
        Assert.DoesNotContain(broken.Warnings(WarningKind.ProbeSilent), IsHere);
        Assert.Equal(why, broken.Shop.Bays["bay-1"].Logs[0].Refused!.Why);
        Assert.Equal(silent.Window(WindowStage.KeepDry).ClosesAt, broken.Window(WindowStage.KeepDry).ClosesAt);
        Assert.Single(silent.Warnings(WarningKind.ProbeSilent), IsHere);
    }

    [Fact]
    public void FrozenProbe_IsTold_AndIsNotBelievedSinceItBeganToRepeatItself()
    {
        TestShop frozen = Day(hour => Lively(Math.Min(hour, 3))), sound = Day(hour => Lively(hour));
        Assert.Single(frozen.Warnings(WarningKind.ProbeImplausible));
        Assert.DoesNotContain(frozen.Warnings(WarningKind.ProbeSilent), IsHere);
        Assert.All(frozen.Shop.Bays["bay-1"].Logs[0].Standing.Stills, s => Assert.Equal(TestShop.At(3), s.From.At));
        Assert.True(frozen.Window(WindowStage.KeepDry).ClosesAt!.Latest > sound.Window(WindowStage.KeepDry).ClosesAt!.Latest);
        Assert.True(frozen.Window(WindowStage.Recoat).ClosesAt!.Earliest < sound.Window(WindowStage.Recoat).ClosesAt!.Earliest);
    }

    [Fact]
    public void HumidityThatSticks_WhileTheTemperatureMoves_IsFrozen()
    {
        TestShop stuck = Day(hour => (Lively(hour).C, hour > 3 ? 61.5 : Lively(hour).Pct));
        Assert.Single(stuck.Warnings(WarningKind.ProbeImplausible));
        Assert.Equal(Disbelief.Frozen, stuck.Shop.Bays["bay-1"].Logs[0].Refused!.Why);
    }

    [Fact]
    public void Fog_OfManyHours_IsNotFrozen()
    {
        TestShop fog = Day(hour => (Lively(hour).C, hour > 3 ? 100 : Lively(hour).Pct));
        Assert.Empty(fog.Warnings(WarningKind.ProbeImplausible));
    }

    [Fact]
    public void SpikeNowAndThen_IsCountedAndNotTold()
    {
        TestShop shop = Day(hour => Math.Round(hour * 60) % 7 == 0 ? (70, 50) : Lively(hour));
        Assert.Empty(shop.Warnings(WarningKind.ProbeImplausible));
        Assert.True(shop.Shop.Tally.Rejected[Disbelief.Implausible] > 80);
    }

    [Fact]
    public void ProbeThatComesRight_ClearsItsWarning()
    {
        TestShop shop = Day(hour => hour is > 3 and < 5 ? (20, 0) : Lively(hour));
        Warning warning = Assert.Single(shop.Warnings(WarningKind.ProbeImplausible));
        Assert.Equal(TestShop.At(5 + (10 / 60.0)), warning.ClearedAt!.Value, TimeSpan.FromMinutes(2));
        Assert.DoesNotContain(shop.Warnings(WarningKind.ProbeSilent), IsHere);
    }

    private static bool IsHere(Warning warning) => warning.Subject.Bay == "bay-1";

    private static (double C, double Pct) Lively(double hour) => (20 + (1.5 * Math.Sin(7 * hour)), 50 + (3 * Math.Sin(50 * hour)));

    private static TestShop Day(Func<double, (double C, double Pct)?> says, double until = 10)
    {
        TestShop shop = new();
        for (int minute = 0; minute <= 60 * until; minute++)
        {
            if (says(minute / 60.0) is { } said)
            {
                shop.Read(minute / 60.0, said.C, said.Pct);
            }

            _ = minute switch
            {
                60 => shop.Tap(1, Applied),
                63 => shop.Tap(1.05, Levelled),
                _ => shop,
            };
        }

        return shop.Until(until);
    }
}
