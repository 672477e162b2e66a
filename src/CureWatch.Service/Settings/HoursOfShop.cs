using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using CureWatch.Handover;

namespace CureWatch.Service.Settings;

/// <summary>Opening hours as people write them: a stretch, or a list of stretches, for each day of the week.</summary>
internal static partial class HoursOfShop
{
    private const string TimeAllowed = "a time of day hh:mm, 00:00 to 24:00";

    /// <returns>The hours; open always where nothing is said.</returns>
    public static OpeningHours Read(JsonCursor hours, TimeZoneInfo zone)
    {
        if (hours.IsAbsent || !hours.Keys([], [.. Enum.GetValues<DayOfWeek>().Select(WireName<DayOfWeek>.Of)]))
        {
            return OpeningHours.Always(zone);
        }

        var open = ImmutableDictionary.CreateBuilder<DayOfWeek, ImmutableArray<OpenStretch>>();
        bool anyDay = false;
        foreach (DayOfWeek day in Enum.GetValues<DayOfWeek>())
        {
            JsonCursor place = hours[WireName<DayOfWeek>.Of(day)];
            IReadOnlyList<JsonCursor> stretches = place.IsObject ? [place] : place.Items();
            anyDay |= stretches.Count > 0;
            ImmutableArray<OpenStretch> read = [.. Stretches(stretches)];
            if (!read.IsEmpty)
            {
                open.Add(day, read);
            }
        }

        if (!anyDay)
        {
            hours.Refuse("at least one open stretch in the week; without openHours the shop is always open");
        }

        return new OpeningHours(zone, open.ToImmutable());
    }

    private static IEnumerable<OpenStretch> Stretches(IReadOnlyList<JsonCursor> places)
    {
        TimeSpan? lastTo = null;
        foreach (JsonCursor place in places)
        {
            _ = place.Keys(["from", "to"]);
            TimeSpan? from = TimeOfDay(place["from"]), to = TimeOfDay(place["to"]);
            if (to <= from)
            {
                place["to"].Refuse("after from; a stretch past midnight is two, the first to 24:00");
            }

            if (from <= lastTo)
            {
                place["from"].Refuse("after the end of the stretch before it");
            }

            lastTo = to ?? lastTo;
            if (from is not null && to is not null)
            {
                yield return new OpenStretch(from.Value, to.Value);
            }
        }
    }

    private static TimeSpan? TimeOfDay(JsonCursor place)
    {
        string? text = place.String(t => ClockTime().IsMatch(t), TimeAllowed);
        return text switch
        {
            null => null,
            "24:00" => TimeSpan.FromDays(1),
            _ => TimeSpan.ParseExact(text, @"hh\:mm", CultureInfo.InvariantCulture),
        };
    }

    [GeneratedRegex(@"\A(([01][0-9]|2[0-3]):[0-5][0-9]|24:00)\z")]
    private static partial Regex ClockTime();
}
