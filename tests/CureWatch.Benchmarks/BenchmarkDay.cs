using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Benchmarks;

/// <summary>A made-up day of one bay: its climate by the minute, and a car whose surfaces are coated one after the other.</summary>
internal static class BenchmarkDay
{
    public static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private const int Minutes = 24 * 60;
    private const int Products = 4;

    /// <summary>A day's wave with sensor noise, rounded as a probe rounds.</summary>
    public static (double AirC, double HumidityPct) ClimateAt(int minute)
    {
        double wave = Math.Sin(minute * Math.Tau / Minutes);
        double noise = ((minute * 7919) % 11) - 5;
        return (Math.Round(20 + (3 * wave) + (0.02 * noise), 1), Math.Round(50 - (8 * wave) + (0.1 * noise), 1));
    }

    public static Shop Shop()
    {
        var probe = new Probe("air-1", Measures.Air, 0, 0, 0.3, 2, TimeSpan.FromMinutes(1));
        var bay = new BayPlan("bay-1", 1013.25, "bay-1", [], [new ProbeMount(probe, null, Place.Outside)]);
        var plan = new ShopPlan("benchmark", OpeningHours.Always(TimeZoneInfo.Utc), TimeSpan.FromMinutes(75), [bay]);
        return Bays.Shop.Opening(plan, Sheets, Start);
    }

    public static IEnumerable<ProductSheet> Sheets => Enumerable.Range(0, Products).Select(Sheet);

    public static Surface Surface(int number) =>
        new($"surface-{number}", Material.Steel, null, Place.Outside, $"product-{number % Products}", 1, Layers: 1, Sections: 1);

    /// <summary>A reading a minute and, half a minute after some of them, a tap.</summary>
    public static Message[] Messages(int coats)
    {
        IEnumerable<Message> readings = Enumerable.Range(0, Minutes).Select(Reading);
        IEnumerable<Message> taps = Enumerable.Range(0, coats).SelectMany(Taps);
        return coats == 0 ? [.. readings] : [Begun(coats), .. readings.Concat(taps).OrderBy(m => m.At)];
    }

    private static Message Reading(int minute)
    {
        (double airC, double humidityPct) = ClimateAt(minute);
        DateTimeOffset at = Start + TimeSpan.FromMinutes(minute);
        return new Message.ReadingCame(new RawReading("bay-1", "air-1", at, at, airC, humidityPct, null));
    }

    private static Message.JobStarted Begun(int coats)
    {
        return new Message.JobStarted(new Job("job-1", "bay-1", null, null, [.. Enumerable.Range(0, coats).Select(Surface)]), Start);
    }

    private static IEnumerable<Message> Taps(int coat)
    {
        DateTimeOffset applied = Start + TimeSpan.FromMinutes(60.5 + (5 * coat));
        DateTimeOffset levelled = applied + TimeSpan.FromMinutes(3);
        yield return new Message.Tapped("job-1", new Tap($"applied-{coat}", applied, applied, $"surface-{coat}", Did.Applied));
        yield return new Message.Tapped("job-1", new Tap($"levelled-{coat}", levelled, levelled, $"surface-{coat}", Did.Levelled));
    }

    private static ProductSheet Sheet(int product)
    {
        double coldFactor = 1 + (0.1 * product);
        ImmutableArray<SheetStage> stages =
        [
            Times(Stage.Flash, Mechanism.Evaporation, 2 / 60.0, 4 / 60.0),
            Times(Stage.LevelBy, Mechanism.Evaporation, 8 / 60.0, 16 / 60.0),
            Times(Stage.KeepDry, Mechanism.Cure, 12, 24),
            Times(Stage.NoWash, Mechanism.Cure, 120, 240),
            Times(Stage.FullCure, Mechanism.Cure, 168, 330),
        ];
        return new ProductSheet(
            $"product-{product}", 1, ProductKind.Paint, Carrier.Solvent, "paint", "invented for the benchmark", ReferenceClimate.Usual,
            new SheetLimits(10, 30, 30, 75, 3, 70), stages, [], AfterWetting.Restart, []);

        // Each product slows down in the cold in its own way, so that each brings laws of its own.
        SheetStage Times(Stage stage, Mechanism clock, double hoursAt20C, double hoursAt10C) =>
            new(stage, clock, [Row(20, hoursAt20C), Row(10, hoursAt10C * coldFactor)]);
    }

    private static SheetRow Row(double degreesC, double hours) =>
        new(new Celsius(degreesC), new RelativeHumidity(50), TimeSpan.FromHours(hours), TimeSpan.FromHours(hours));
}
