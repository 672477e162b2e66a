using System.Collections.Immutable;
using System.Globalization;
using CureWatch.Readings;

namespace CureWatch.Service.Settings;

/// <summary>When a probe was calibrated, as people write it: an instant, or a day of the shop, from whose beginning on it holds.</summary>
/// <remarks>Who tests the humidity says nothing of the temperature: what a calibration does not name goes on as it was.</remarks>
internal static class CalibrationsOfProbe
{
    /// <summary>One a month for eight years. Source (choice).</summary>
    private const int Most = 100;

    private const int LongestNote = 200;

    private const string AllowedFrom = "a day such as 2026-03-02, or " + Instants.Allowed;

    private static readonly TimeSpan Step = TimeSpan.FromMinutes(15);

    /// <returns>The calibrations in order of their dates; one with a fault may be missing.</returns>
    public static ImmutableArray<Calibration> Read(
        JsonCursor place, (double TemperatureK, double HumidityPct) offset, TimeZoneInfo zone, NumberRange offsetK, NumberRange offsetPct)
    {
        var calibrations = ImmutableArray.CreateBuilder<Calibration>();
        if (place.IsAbsent)
        {
            return [];
        }

        foreach (JsonCursor item in place.Items())
        {
            _ = item.Keys(["from"], "temperatureK", "humidityPct", "note");
            double? kelvins = item["temperatureK"].Number(offsetK), percent = item["humidityPct"].Number(offsetPct);
            string? note = item["note"].Text(LongestNote);
            if (From(item["from"], zone) is not { } from)
            {
                continue;
            }

            if (calibrations.Count > 0 && from <= calibrations[^1].From)
            {
                item["from"].Refuse("a later time than the calibration before");
            }
            else if (calibrations.Count == Most)
            {
                item.Refuse($"at most {Most} calibrations");
            }

            (double beforeK, double beforePct) = calibrations is [.., var last] ? (last.TemperatureK, last.HumidityPct) : offset;
            calibrations.Add(new Calibration(from, kelvins ?? beforeK, percent ?? beforePct, note));
        }

        return calibrations.ToImmutable();
    }

    private static DateTimeOffset? From(JsonCursor place, TimeZoneInfo zone)
    {
        DateTimeOffset from = default;
        return place.String(text => Instants.TryParse(text, out from) || TryDay(text, zone, out from), AllowedFrom) is null ? null : from;
    }

    private static bool TryDay(string text, TimeZoneInfo zone, out DateTimeOffset begins)
    {
        begins = default;
        if (!DateTime.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local) || local.Year is not (>= 1900 and <= 2199))
        {
            return false;
        }

        while (zone.IsInvalidTime(local))
        {
            local += Step; // a day that begins with summer time
        }

        begins = new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
        return true;
    }
}
