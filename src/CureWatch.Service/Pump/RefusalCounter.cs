using System.Collections.Immutable;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>
/// Counts messages that were no readings, and has them journalled at most once a minute: whoever sends rubbish by the thousand fills a
/// counter, not a disk. The first is journalled at once.
/// </summary>
internal sealed class RefusalCounter : IDisposable
{
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(1);

    /// <summary>More unknown probes and topics than this are counted together: a sender makes up as many as it likes. Source (choice).</summary>
    private const int MostUnknown = 500;
    private const string OtherPlaces = "elsewhere";

    /// <summary>A topic may have 65,535 bytes; this much tells it from others. Source (choice).</summary>
    private const int LongestPlace = 120;

    private readonly TimeProvider _clock;
    private readonly ITimer _wake;
    private Counted _now = Counted.Nothing;
    private Counted _kept = Counted.Nothing;

    /// <param name="clock">The clock.</param>
    /// <param name="wake">Called when what was counted may be journalled, though nothing else comes.</param>
    public RefusalCounter(TimeProvider clock, Action wake)
    {
        _clock = clock;
        _wake = clock.CreateTimer(_ => wake(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    public void Count(Disbelief reason, string place)
    {
        place = place.Length <= LongestPlace ? place : string.Concat(place.AsSpan(0, LongestPlace), "…");
        bool isNamed = reason != Disbelief.UnknownProbe || _now.Unknown.Contains(place) || _now.Unknown.Count < MostUnknown;
        (string, string) key = (WireName<Disbelief>.Of(reason), isNamed ? place : OtherPlaces);
        _now = _now with
        {
            Counts = _now.Counts.SetItem(key, _now.Counts.GetValueOrDefault(key) + 1),
            Unknown = reason == Disbelief.UnknownProbe && isNamed ? _now.Unknown.Add(place) : _now.Unknown,
        };
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
        if (_now.Counts.IsEmpty)
        {
            return null;
        }

        if (!isLast && _now.CountedAt is { } before && Every - _clock.GetElapsedTime(before) is var left && left > TimeSpan.Zero)
        {
            _wake.Change(left, Timeout.InfiniteTimeSpan);
            return null;
        }

        var counted = new Entry.RefusalsCounted([.. _now.Counts.Select(c => new RefusalCount(c.Key.Reason, c.Key.Place, c.Value))]);
        _now = _now with { Counts = _now.Counts.Clear(), CountedAt = _clock.GetTimestamp() };
        return counted;
    }

    /// <summary>Stands by what was counted so far: its senders were told.</summary>
    public void Keep() => _kept = _now;

    public void Dispose() => _wake.Dispose();

    /// <summary>Forgets what was counted since: its senders send it again.</summary>
    public void Forget() => _now = _kept;

    private sealed record Counted(
        ImmutableSortedDictionary<(string Reason, string Place), int> Counts, ImmutableHashSet<string> Unknown, long? CountedAt)
    {
        public static Counted Nothing { get; } = new(ImmutableSortedDictionary<(string, string), int>.Empty, [], null);
    }
}
