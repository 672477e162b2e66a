using CsCheck;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Days;

/// <summary>A panel probe that dies for good while the air is heard: the car leaves later than it would have, but it leaves. Common practice, no source.</summary>
public class DeadPanelTests
{
    [Theory]
    [InlineData(null)]
    [InlineData("bonnet")]
    public void DeadPanelProbe_InSoundAir_ReleaseComesLater_AndComes_WithItsReason(string? on)
    {
        TestShop whole = Day(40, _ => 19.5, on), dead = Day(40, h => h < 3 ? 19.5 : null, on), early = Day(8, h => h < 3 ? 19.5 : null, on);
        Assert.True(dead.Report.Ruling.IsReady);
        Assert.InRange((Release(dead) - Release(whole))!.Value.TotalHours, 0.5, 8);
        Hold hold = Assert.Single(early.Holds, h => h.Kind == HoldKind.KeepDry);
        Assert.Contains("Its panel is reckoned from the air, up to 2.5 K colder: panel-1 has not been heard since 10:59.", hold.Text.ToString(), StringComparison.Ordinal);
        Assert.Contains("Its next reading ends it", hold.Text.ToString(), StringComparison.Ordinal);
        Assert.EndsWith("panel-1 has not been heard since 10:59.", early.Report.Assumes.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("reckoned", whole.Report.Assumes.ToString(), StringComparison.Ordinal);
    }

    // Wherever the true panel is within what may last, at every hour it may die.
    // Eight hours of keep-dry were earned by a guess at the panel; a probe that is heard for the first time then took four hours off at once.
    [Fact]
    public void PanelProbe_HeardForTheFirstTimeLate_MakesNothingSurerThatWasGuessedBefore()
    {
        TestShop shop = new TestShop(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]).Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 9);
        DateTimeOffset guessed = shop.Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value;
        for (double hour = 9.02; hour < 9.2; hour += 1 / 60.0)
        {
            shop.Read(hour, 20, 50).ReadPanel(hour, 20);
        }

        Window measured = shop.Window(WindowStage.KeepDry);
        TimeSpan byGuess = guessed - measured.ClosesAt!.Likely!.Value, left = measured.ClosesAt.Latest!.Value - measured.ClosesAt.Likely.Value;
        Assert.InRange(left / byGuess, 0.5, 1); // two thirds of it were guessed
    }

    [Fact]
    public void DeadPanelProbe_OfAnyPanelThatStaysNearItsAir_NeverReleasesEarlier_NorClosesLater() => Gen.Select(Gen.Double[-3, 3], Gen.Double[1.2, 12]).Sample(
        (apartK, diesAt) =>
        {
            TestShop whole = Day(30, _ => 20 + apartK, null), dead = Day(30, h => h < diesAt ? 20 + apartK : null, null);
            Assert.True(Release(dead) >= Release(whole), $"released {Release(whole) - Release(dead)} earlier");
            DateTimeOffset? by = Recoat(whole), closes = Recoat(dead);
            Assert.True(closes <= by + TimeSpan.FromSeconds(1), $"closed {closes - by} later");
        },
        iter: 10);

    // Whatever it says when somebody has put it on again.
    [Fact]
    public void DeadPanelProbe_ThatComesBack_TakesNoReadyBack() => Gen.Select(Gen.Double[9, 14], Gen.Double[14, 22], Gen.Double[-5, 45]).Sample(
        (diesAt, backAt, backC) =>
        {
            bool wasReady = Day(backAt, h => h < diesAt ? 19.5 : null, null).Report.Ruling.IsReady;
            TestShop back = Day(backAt, h => h < diesAt ? 19.5 : null, null).ReadPanel(backAt, backC).Until(backAt + 0.01);
            Assert.False(wasReady && back.Holds.Any(h => h.Kind == HoldKind.KeepDry), $"{diesAt} {backAt} {backC}");
        },
        iter: 10);

    // Damp air, in which a panel as cold as it may be is wet: nobody can say that it stayed dry.
    [Fact]
    public void DeadPanelProbe_InAirThatMayWetIt_IsAHold()
    {
        TestShop damp = Day(12, h => h < 3 ? 19.5 : null, null, h => h < 6 ? 50 : 88);
        Assert.Contains(HoldKind.Condensation, damp.HoldKinds);
        Assert.DoesNotContain(HoldKind.Condensation, Day(12, _ => 19.5, null, h => h < 6 ? 50 : 88).HoldKinds);
    }

    private static DateTimeOffset? Release(TestShop shop) => shop.Window(WindowStage.KeepDry).ClosesAt!.Latest;

    private static DateTimeOffset? Recoat(TestShop shop) => shop.Window(WindowStage.Recoat).ClosesAt!.Earliest;

    private static TestShop Day(double hours, Func<double, double?> panelC, string? on, Func<double, double>? humidityPct = null)
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        if (on is not null)
        {
            ShopPlan plan = shop.Shop.Plan;
            shop.Take(new Message.PlanChanged(
                plan with
                {
                    Bays = [.. plan.Bays.Select(b => b with { Probes = [.. b.Probes.Select(m => m.Probe.Measures == Measures.Panel ? m with { Material = Material.Steel, Surface = on } : m)] })],
                },
                TestShop.Start));
        }

        for (int minute = 0; minute <= hours * 60; minute++)
        {
            double hour = minute / 60.0, flutter = 0.01 * Math.Sin(97 * hour);
            shop.Read(hour, 20 + flutter, (humidityPct?.Invoke(hour) ?? 50) + flutter);
            if (panelC(hour) is { } c)
            {
                shop.ReadPanel(hour, c + flutter);
            }

            if (minute == 60)
            {
                shop.Tap(1, Did.Applied).Tap(1.05, Did.Levelled);
            }
        }

        return shop.Until(hours);
    }
}
