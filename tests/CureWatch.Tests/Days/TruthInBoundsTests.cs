using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.Tests.Learning;
using CureWatch.TimeWindows;
using CureWatch.Units;

namespace CureWatch.Tests.Days;

/// <summary>
/// Whether bounds hold what they claim, end to end: what a product really takes is drawn from how sure its sheet's fit is, probes are off within their
/// limits, and the coat cures in an invented bay; the engine hears the probes alone.
/// </summary>
public sealed class TruthInBoundsTests(ITestOutputHelper output)
{
    private const double AirLimitK = 0.3, HumidityLimitPct = 2, PanelLimitK = 0.5;

    [Fact]
    public void Truth_OfSomeDays_LiesInsideTheBounds() => AssertHolds(1, 160);

    [Fact(Explicit = true)]
    public void Truth_OfManyDays_LiesInsideTheBounds() => AssertHolds(10_000, 3_000);

    private void AssertHolds(int firstSeed, int days)
    {
        Outcome[] outcomes = [.. Enumerable.Range(firstSeed, days).Select(Live).OfType<Outcome>()];
        foreach (IGrouping<string, Outcome> alike in outcomes.GroupBy(o => o.Kind).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            Tell(alike.Key, [.. alike]);
        }

        Tell("all", outcomes);
        double deviation = Math.Sqrt(0.9 * 0.1 / outcomes.Length), ofRelease = Math.Sqrt(0.95 * 0.05 / outcomes.Length);
        Assert.True(outcomes.Length > 0.9 * days);
        Assert.InRange(Share(outcomes, o => o.KeepDryHolds), 0.9 - (2 * deviation), 1);
        Assert.InRange(Share(outcomes, o => o.RecoatHolds), 0.9 - (2 * deviation), 1);
        Assert.InRange(Share(outcomes, o => o.IsReleasedTooEarly), 0, 0.05 + (2 * ofRelease));

        void Tell(string kind, Outcome[] some) => output.WriteLine(
            $"{kind}: {some.Length} days, truth inside keep-dry {100 * Share(some, o => o.KeepDryHolds):0.0} %, recoat-from {100 * Share(some, o => o.RecoatHolds):0.0} %, "
            + $"released before it {100 * Share(some, o => o.IsReleasedTooEarly):0.0} %");
    }

    private static Outcome? Live(int seed)
    {
        var random = new Random(seed);
        int rows = 1 + random.Next(4);
        bool hasPanelProbe = random.Next(2) == 0;
        double outage = random.Next(3) == 0 ? 1 + (2 * random.NextDouble()) : 0, outageFrom = 2 + (3 * random.NextDouble());
        var day = new InventedDay(random, AirLimitK, HumidityLimitPct, PanelLimitK, panelLagHours: 0.1);
        ProductSheet sheet = Sheet(random, rows);
        var fit = SheetFit.Of(sheet);
        if (TrueEnd(fit.Find(Stage.RecoatFrom)!) is not { } recoat || TrueEnd(fit.Find(Stage.KeepDry)!) is not { } keepDry)
        {
            return null; // too cold and dry to see the end
        }

        Shop shop = Opened(sheet, hasPanelProbe);
        shop = ShopFold.Take(shop, new Message.Tapped("job-1", new Tap("a", TestShop.At(1), TestShop.At(1), null, Did.Applied))).Shop;
        JobReport? report = null;
        for (double hour = 0; hour < 190 && report?.Ruling.IsReady != true; hour += 1 / 12.0)
        {
            if (outage > 0 && hour > outageFrom && hour < outageFrom + outage)
            {
                continue;
            }

            (double airC, double pct, double panelC) = day.Reading(hour);
            shop = Read(shop, hour, "air-1", airC, pct, null);
            shop = hasPanelProbe ? Read(shop, hour, "panel-1", null, null, panelC) : shop;
            report = hour > 1 && Math.Abs(hour - Math.Round(hour)) < 0.01 ? JobReport.Of(shop, "job-1") : report;
        }

        ImmutableArray<Window> windows = report!.Surfaces[0].Coats[0].Windows;
        TimeBounds opens = windows.Single(w => w.Stage == WindowStage.Recoat).OpensAt, ends = windows.Single(w => w.Stage == WindowStage.KeepDry).ClosesAt!;
        return new Outcome(
            $"{rows} row{(rows > 1 ? "s" : "")}, panel {(hasPanelProbe ? "measured" : "modelled")}{(outage > 0 ? ", outage" : "")}",
            Holds(opens, recoat),
            Holds(ends, keepDry),
            report.Ruling.ReadyAt!.Latest < TestShop.At(keepDry));

        double? TrueEnd(StageFit stage)
        {
            (double lnHours, double energy, double exponent) = Drawn(random, stage.Covariance);
            return day.Through(1, stage.ReferenceHours * Math.Exp(lnHours), stage.Law.ActivationEnergyJmol + energy, stage.Law.HumidityExponent + exponent);
        }
    }

    private static bool Holds(TimeBounds bounds, double hour) => bounds.Earliest <= TestShop.At(hour) && TestShop.At(hour) <= bounds.Latest;

    /// <summary>A sheet of so many rows at climates of their own, from an invented product and rounded as sheets are; a product without a flash.</summary>
    private static ProductSheet Sheet(Random random, int rows)
    {
        (double C, double Pct)[] climates = [(20, 50), (10, 50), (30, 60), (20, 75)];
        double energy = 50_000 + (8_000 * InventedBay.Normal(random)), exponent = 0.6 + (0.15 * InventedBay.Normal(random));
        return TestShop.Paint() with { Stages = [Of(Stage.RecoatFrom, 2), Of(Stage.KeepDry, 9)] };

        SheetStage Of(Stage stage, double hours) => new(
            stage,
            Mechanism.Cure,
            [
                .. climates.Take(rows).Select(c =>
                {
                    double rate = Math.Exp(energy / 8.314 * ((1 / 293.15) - (1 / (c.C + 273.15)))) * Math.Pow(c.Pct / 50, exponent);
                    var time = TimeSpan.FromHours(Math.Max(0.25, Math.Round(4 * hours / rate) / 4));
                    return new SheetRow(new Celsius(c.C), new RelativeHumidity(c.Pct), time, time);
                }),
            ]);
    }

    /// <summary>One draw from a normal law of three numbers, by the Cholesky factor of its covariance.</summary>
    private static (double LnHours, double Energy, double Exponent) Drawn(Random random, FitCovariance of)
    {
        double a = Math.Sqrt(of.LnHours), b = of.LnHoursEnergy / a, c = of.LnHoursExponent / a;
        double d = Math.Sqrt(of.Energy - (b * b)), e = (of.EnergyExponent - (b * c)) / d, f = Math.Sqrt(Math.Max(0, of.Exponent - (c * c) - (e * e)));
        (double x, double y, double z) = (InventedBay.Normal(random), InventedBay.Normal(random), InventedBay.Normal(random));
        return (a * x, (b * x) + (d * y), (c * x) + (e * y) + (f * z));
    }

    private static Shop Opened(ProductSheet sheet, bool hasPanelProbe)
    {
        Probe air = TestShop.Air("air-1") with { Every = TimeSpan.FromMinutes(5), AccuracyTemperatureK = AirLimitK, AccuracyHumidityPct = HumidityLimitPct };
        Probe panel = TestShop.Panel("panel-1") with { Every = TimeSpan.FromMinutes(5), AccuracyTemperatureK = PanelLimitK };
        ImmutableArray<ProbeMount> mounts = [.. (hasPanelProbe ? new[] { air, panel } : [air]).Select(p => new ProbeMount(p, null, Place.Outside))];
        var open = new OpeningHours(TimeZoneInfo.Utc, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty);
        var plan = new ShopPlan("invented", open, TimeSpan.Zero, [new BayPlan("bay-1", 1013.25, "bay-1", [], mounts)]);
        var surface = new Surface("bonnet", Material.Steel, null, Place.Outside, sheet.Product, sheet.Revision, 1, 1);
        return ShopFold.Take(Shop.Opening(plan, [sheet], TestShop.Start), new Message.JobStarted(new Job("job-1", "bay-1", null, null, [surface]), TestShop.Start)).Shop;
    }

    private static Shop Read(Shop shop, double hour, string probe, double? airC, double? pct, double? panelC) =>
        ShopFold.Take(shop, new Message.ReadingCame(new RawReading("bay-1", probe, TestShop.At(hour), TestShop.At(hour), airC, pct, panelC))).Shop;

    private static double Share(Outcome[] all, Func<Outcome, bool> which) => (double)all.Count(which) / all.Length;

    private sealed record Outcome(string Kind, bool RecoatHolds, bool KeepDryHolds, bool IsReleasedTooEarly);
}
