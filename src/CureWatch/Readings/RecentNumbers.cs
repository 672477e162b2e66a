using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>The last readings that a probe gave a number, by which one that comes again is known.</summary>
/// <remarks>
/// With a clock, a reading is known by its instant and its number: several of one instant are told apart, and put in the order of their
/// numbers. Without one its number has to do, together with what it says, because a sensor that was switched off and on begins anew.
/// </remarks>
internal sealed class RecentNumbers
{
    /// <summary>More than a sensor keeps under way at a time. Source (choice).</summary>
    private const int Most = 32;

    /// <summary>More instants that several readings have than a clock of whole seconds counts while a late one is taken. Source (choice).</summary>
    private const int MostShared = 1_000;

    /// <summary>How many ticks of 100 ns a reading is moved at most: less than half a millisecond, so that it stays nearer to its instant than to the next of a usual clock.</summary>
    private const long Furthest = 4_999;

    /// <summary>Before the first number.</summary>
    public static readonly RecentNumbers None = new([], ImmutableSortedDictionary<DateTimeOffset, long>.Empty);

    /// <summary>The oldest first.</summary>
    private readonly ImmutableArray<RawReading> _readings;

    /// <summary>Of each instant that several readings have, the number of the first that came: it outlasts the reading, so that each of them is known again.</summary>
    private readonly ImmutableSortedDictionary<DateTimeOffset, long> _shared;

    private RecentNumbers(ImmutableArray<RawReading> readings, ImmutableSortedDictionary<DateTimeOffset, long> shared) => (_readings, _shared) = (readings, shared);

    /// <summary>Whether a reading without a clock came before, or is behind one that came after it.</summary>
    /// <returns>Why it is not believed; null where its number is no reason.</returns>
    public Disbelief? Doubt(RawReading raw)
    {
        if (raw.HasClock || raw.Sequence is not { } number || _readings.IsEmpty)
        {
            return null;
        }

        RawReading? same = NewestWith(number);
        long behind = _readings[^1].Sequence!.Value - number;
        return same is not null && SaysTheSame(same, raw) ? Disbelief.Duplicate
            : same is null && behind is > 0 and < Most ? Disbelief.Late
            : null;
    }

    private RawReading? NewestWith(long number) => _readings.LastOrDefault(r => r.Sequence == number);

    /// <summary>The instant a reading claims, moved off that of the first of the same instant by as many ticks of 100 ns as its number is away.</summary>
    public DateTimeOffset Claim(RawReading raw) => raw.Sequence is { } number && FirstOf(raw.MeasuredAt) is { } first
        ? raw.MeasuredAt.AddTicks(Math.Clamp(number - first, -Furthest, Furthest))
        : raw.MeasuredAt;

    public RecentNumbers With(RawReading raw)
    {
        if (raw.Sequence is not { } number)
        {
            return this;
        }

        bool beginsAnew = !raw.HasClock && !_readings.IsEmpty && number <= _readings[^1].Sequence;
        ImmutableArray<RawReading> kept = beginsAnew ? [] : _readings.Length < Most ? _readings : _readings.RemoveAt(0);
        return new RecentNumbers(kept.Add(raw), SharedWith(raw.MeasuredAt));
    }

    private long? FirstOf(DateTimeOffset instant)
    {
        if (!_shared.IsEmpty && _shared.TryGetValue(instant, out long first))
        {
            return first;
        }

        foreach (RawReading told in _readings)
        {
            if (told.MeasuredAt == instant)
            {
                return told.Sequence;
            }
        }

        return null;
    }

    private ImmutableSortedDictionary<DateTimeOffset, long> SharedWith(DateTimeOffset instant)
    {
        if (FirstOf(instant) is not { } first || _shared.ContainsKey(instant))
        {
            return _shared;
        }

        ImmutableSortedDictionary<DateTimeOffset, long> shared = _shared.Add(instant, first);
        return shared.Count > MostShared ? shared.Remove(shared.Keys.First()) : shared;
    }

    private static bool SaysTheSame(RawReading a, RawReading b) => (a.AirC, a.HumidityPct, a.PanelC) == (b.AirC, b.HumidityPct, b.PanelC);
}
