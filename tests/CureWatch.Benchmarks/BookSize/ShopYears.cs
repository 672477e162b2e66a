using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Benchmarks.BookSize;

/// <summary>Ten bays with two probes each over some years, a reading a minute, as entries that were believed.</summary>
/// <param name="days">How long.</param>
internal sealed class ShopYears(int days)
{
    public const int Bays = 10;
    public const int ProbesABay = 2;

    public static readonly DateTimeOffset Start = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private const int MinutesADay = 24 * 60;

    public DateTimeOffset End => Start.AddDays(days);

    public long Readings => (long)days * MinutesADay * Bays * ProbesABay;

    public static string BayOf(int index) => $"bay-{index}";

    public static string ProbeOf(int index) => $"air-{index}";

    /// <summary>The entries, without a register: the book looks at it only for warnings and handovers.</summary>
    public IEnumerable<Step> Steps()
    {
        var noise = new Random(1);
        long sequence = 0;
        for (int minute = 0; minute < days * MinutesADay; minute++)
        {
            for (int probe = 0; probe < Bays * ProbesABay; probe++)
            {
                // Each probe at its own second, some milliseconds off: as they come, not as they are planned.
                DateTimeOffset at = Start.AddMinutes(minute).AddMilliseconds((probe * 3000) + noise.Next(500));
                double day = minute * 2 * Math.PI / MinutesADay;
                double celsius = Math.Round(15 + (8 * Math.Sin(day / 365)) + (4 * Math.Sin(day)) + (0.3 * noise.NextDouble()), 2);
                double percent = Math.Round(60 - (15 * Math.Sin(day)) + (2 * noise.NextDouble()), 1);
                (string bay, string name) = (BayOf(probe / ProbesABay), ProbeOf(probe % ProbesABay));
                ImmutableArray<ShopEvent> happened = [new ShopEvent.ReadingBelieved(new RawReading(bay, name, at, at, celsius, percent, null))];
                yield return new Step(++sequence, at, new Entry.Reading(bay, name, at, celsius, percent, null), happened, Register.Blank);
            }
        }
    }
}
