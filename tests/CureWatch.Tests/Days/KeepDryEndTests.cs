using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Days;

/// <summary>The end of keep-dry against a fine-step sum written here, with readings that come when they come.</summary>
public class KeepDryEndTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void KeepDry_WithEachProbeOnItsOwnClock_EndsWhereAFineStepSumSays(int seed)
    {
        var random = new Random(seed);
        List<(double Hour, double C, double Pct)> air = [.. Times(random, 40).Select(h => (h, AirC(h) + random.NextDouble(), 55 + (15 * Math.Sin(h / 3)) + random.NextDouble()))];
        List<(double Hour, double C)> panel = [.. Times(random, 40).Select(h => (h, AirC(h) - 2 + random.NextDouble()))];
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        var messages = new List<(double Hour, Action Tell)>();
        messages.AddRange(air.Select(a => (a.Hour, (Action)(() => shop.Read(a.Hour, a.C, a.Pct)))));
        messages.AddRange(panel.Select(p => (p.Hour, (Action)(() => shop.ReadPanel(p.Hour, p.C)))));
        messages.Add((2.01, () => shop.Tap(2.01, Did.Applied)));
        messages.Add((2.06, () => shop.Tap(2.06, Did.Levelled)));
        foreach ((_, Action tell) in messages.OrderBy(m => m.Hour))
        {
            tell();
        }

        Window window = shop.Window(WindowStage.KeepDry);
        double expected = FineStepEnd(air, panel, 2.06, 12);
        double found = (window.ClosesAt!.Likely!.Value - TestShop.Start).TotalHours;
        Assert.Equal(expected - 2.06, found - 2.06, 0.001 * (expected - 2.06));
        Assert.InRange(TestShop.At(expected), window.ClosesAt.Earliest!.Value, window.ClosesAt.Latest!.Value);
    }

    [Fact]
    public void LateReadings_GiveTheSameAsReadingsInOrder()
    {
        TestShop inOrder = new(), late = new();
        for (int minute = 0; minute <= 20 * 60; minute++)
        {
            double c = 18 + (3 * Math.Sin(minute / 200.0));
            inOrder.Read(minute / 60.0, c, 55);
            if (minute == 60)
            {
                inOrder.Tap(1, Did.Applied).Tap(1.05, Did.Levelled, reportedHour: 1.05);
                late.Tap(1, Did.Applied).Tap(1.05, Did.Levelled, reportedHour: 1.05);
            }

            // Every seventh reading comes ten minutes late.
            if (minute % 7 != 0)
            {
                late.Read(minute / 60.0, c, 55);
            }

            int overdue = minute - 10;
            if (overdue >= 0 && overdue % 7 == 0)
            {
                double then = 18 + (3 * Math.Sin(overdue / 200.0));
                late.Take(new Message.ReadingCame(new RawReading("bay-1", "air-1", TestShop.At(overdue / 60.0), TestShop.At(minute / 60.0), then, 55, null)));
            }
        }

        Assert.Empty(late.Shop.Tally.Rejected);
        DateTimeOffset expected = inOrder.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value;
        Assert.Equal(expected, late.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value, TimeSpan.FromMilliseconds(2));
    }

    [Fact]
    public void MovedCar_KeepsItsClock_AndTakesTheNewClimate()
    {
        // 4 h at 20 °C/50 %, then at 30 °C/50 %: the rest of 12 h at the rate of that climate.
        TestShop shop = new TestShop().Steady(0, 1).Climate(0, 1, _ => (30, 50), "bay-2").Tap(1, Did.Applied).Tap(1.05, Did.Levelled);
        for (int minute = 61; minute < 30 * 60; minute++)
        {
            shop.Read(minute / 60.0, 20, 50).Read(minute / 60.0, 30, 50, bay: "bay-2");
            if (minute == 303)
            {
                shop.Tap(5.05, Did.Moved, toBay: "bay-2");
            }
        }

        RateLaw law = shop.Shop.LawsOf(shop.Report.Surfaces[0].Surface).KeepDry!.Law;
        double rate = law.Likely(law.Terms(303.15, 0.5 * SaturationPressure.OverWaterPa(303.15)));
        Assert.Equal(TestShop.At(5.05 + (8 / rate)), shop.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value, TimeSpan.FromSeconds(2));
    }

    [Fact]
    public void CarInTheStore_EarnsTheSlowBoundNothing_AndIsHeldUntilInspected()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 3);
        shop.Tap(3, Did.Moved, toBay: "store").Until(10);
        Assert.Contains(HoldKind.Unwatched, shop.HoldKinds);
        double low = shop.Report.Surfaces[0].Coats[0].ReferenceHours.Low;
        Assert.True(low < 2);
        shop.Tap(10, Did.Moved, toBay: "bay-1").Steady(10.1, 40);
        Assert.Equal([HoldKind.Unwatched], shop.HoldKinds);
        shop.Tap(40, Did.Inspected, found: Found.Clear);
        Assert.True(shop.Report.Ruling.IsReady);
    }

    private static double AirC(double hour) => 18 + (5 * Math.Sin(hour / 2.5));

    private static IEnumerable<double> Times(Random random, double until)
    {
        for (double hour = 0; hour < until; hour += (7 + (18 * random.NextDouble())) / 60)
        {
            yield return Math.Round(hour * 3600) / 3600;
        }
    }

    private static double FineStepEnd(List<(double Hour, double C, double Pct)> air, List<(double Hour, double C)> panel, double from, double referenceHours)
    {
        const double Step = 1.0 / 3600;
        int a = 0, p = 0;
        double theta = 0;
        for (double hour = from + (Step / 2); ; hour += Step)
        {
            while (air[a + 1].Hour < hour)
            {
                a++;
            }

            while (panel[p + 1].Hour < hour)
            {
                p++;
            }

            double share = (hour - air[a].Hour) / (air[a + 1].Hour - air[a].Hour);
            double e = (E(air[a].C, air[a].Pct) * (1 - share)) + (E(air[a + 1].C, air[a + 1].Pct) * share);
            double panelC = panel[p].C + ((panel[p + 1].C - panel[p].C) * (hour - panel[p].Hour) / (panel[p + 1].Hour - panel[p].Hour));
            double activity = Math.Clamp(e / E(panelC, 100), 0.05, 0.85);
            theta += Step * Math.Exp((50e3 / 8.314462618 * ((1 / 293.15) - (1 / (panelC + 273.15)))) + (0.6 * Math.Log(activity / 0.5)));
            if (theta >= referenceHours)
            {
                return hour + (Step / 2);
            }
        }
    }

    // Magnus form, WMO-No. 8: within 0.1 % of the library's own saturation pressure in a bay's range.
    private static double E(double c, double pct) => pct / 100 * 611.2 * Math.Exp(17.62 * c / (243.12 + c));
}
