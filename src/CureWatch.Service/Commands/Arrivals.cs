using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>The rows of a readings file as readings that arrived one after the other.</summary>
internal static class Arrivals
{
    /// <summary>A row that does not say when it arrived arrived when it was measured, or with the row before it if that was later.</summary>
    public static IEnumerable<RawReading> Of(IEnumerable<ReadingRow> rows)
    {
        DateTimeOffset arrived = DateTimeOffset.MinValue;
        foreach (ReadingRow row in rows)
        {
            DateTimeOffset claimed = row.ReceivedAt ?? row.Time;
            arrived = claimed > arrived ? claimed : arrived;
            yield return new RawReading(row.Bay, row.Probe, row.Time, arrived, row.AirC, row.HumidityPct, row.PanelC, row.Sequence, row.HasClock);
        }
    }
}
