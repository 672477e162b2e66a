using System.Collections.Immutable;
using System.Globalization;
using CureWatch.Bays;
using CureWatch.Benchmarks.BookSize;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Service.Journal;

namespace CureWatch.Benchmarks.StartUp;

/// <summary>A car in each bay every day, that gets four coats in the morning and leaves a day and a half later.</summary>
internal static class DailyCar
{
    private const int ReadingsADay = 24 * 60 * ShopYears.Bays * ShopYears.ProbesABay;
    private const int ReadingsAnHour = ReadingsADay / 24;

    private static readonly ImmutableArray<Surface> Surfaces =
    [
        new("bonnet", Material.Steel, null, Place.Outside, "paint-oxide-demo", 1, 1, 1),
        new("screen", Material.Glass, null, Place.Outside, "glass-repel-demo", 1, 1, 1),
        new("wheels", Material.Aluminium, null, Place.Outside, "wheel-silazane-demo", 1, 1, 1),
        new("trim", Material.Plastic, null, Place.Outside, "trim-dressing-demo", 1, 1, 1),
    ];

    /// <summary>What people do at the moment of a reading, counted from 1.</summary>
    public static ImmutableArray<Func<DateTimeOffset, Entry>> At(long reading)
    {
        (long day, long ofDay) = Math.DivRem(reading, ReadingsADay);
        return ofDay switch
        {
            8 * ReadingsAnHour => [.. All(bay => _ => new Entry.JobStarted(new Job(Id(day, bay), ShopYears.BayOf(bay), null, null, Surfaces), []))],
            9 * ReadingsAnHour => [.. All(bay => at => Tap(day, bay, at, Did.Applied))],
            (9 * ReadingsAnHour) + (ReadingsAnHour / 20) => [.. All(bay => at => Tap(day, bay, at, Did.Levelled))],
            20 * ReadingsAnHour when day > 0 => [.. All(bay => _ => new Entry.HandedOver(Id(day - 1, bay), null, "its owner is here"))],
            _ => [],
        };
    }

    private static IEnumerable<Func<DateTimeOffset, Entry>> All(Func<int, Func<DateTimeOffset, Entry>> of) => Enumerable.Range(0, ShopYears.Bays).Select(of);

    private static Entry.Tapped Tap(long day, int bay, DateTimeOffset at, Did did) => new(Id(day, bay), new Tap(null, at, at, null, did));

    private static string Id(long day, int bay) => string.Create(CultureInfo.InvariantCulture, $"car-{day}-{bay}");
}
