using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>
/// Counts messages that were no readings, and has them journalled at most once a minute: whoever sends rubbish by the thousand fills a
/// counter, not a disk. The first is journalled at once.
/// </summary>
internal sealed class RefusalCounter(TimeProvider clock)
{
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(1);

    /// <summary>More unknown probes and topics than this are counted together: a sender makes up as many as it likes. Source (choice).</summary>
    private const int MostUnknown = 500;
    private const string OtherPlaces = "elsewhere";

    /// <summary>A topic may have 65,535 bytes; this much tells it from others. Source (choice).</summary>
    private const int LongestPlace = 120;

    private readonly SortedDictionary<(string Reason, string Place), int> _counts = [];
    private readonly HashSet<string> _unknown = new(StringComparer.Ordinal);
    private long? _countedAt;

    public void Count(Disbelief reason, string place)
    {
        place = place.Length <= LongestPlace ? place : string.Concat(place.AsSpan(0, LongestPlace), "…");
        bool isNamed = reason != Disbelief.UnknownProbe || _unknown.Contains(place) || (_unknown.Count < MostUnknown && _unknown.Add(place));
        (string, string) key = (WireName<Disbelief>.Of(reason), isNamed ? place : OtherPlaces);
        _counts[key] = _counts.GetValueOrDefault(key) + 1;
    }

    /// <summary>Counts a tap of a push-button where it was refused.</summary>
    /// <returns>The answer, as it was.</returns>
    public Answer Count(Arrival.Tap tap, Answer answer)
    {
        if (tap.Button is { } button && answer is Answer.Refused or Answer.NoSuchJob)
        {
            Count(answer is Answer.NoSuchJob ? Disbelief.UnknownJob : Disbelief.Malformed, button);
        }

        return answer;
    }

    /// <returns>What to journal; null where there is nothing, or not yet.</returns>
    public Entry.RefusalsCounted? Take(bool isLast = false)
    {
        if (_counts.Count == 0 || (!isLast && _countedAt is { } before && clock.GetElapsedTime(before) < Every))
        {
            return null;
        }

        var counted = new Entry.RefusalsCounted([.. _counts.Select(c => new RefusalCount(c.Key.Reason, c.Key.Place, c.Value))]);
        _counts.Clear();
        _countedAt = clock.GetTimestamp();
        return counted;
    }
}
