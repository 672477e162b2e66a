using System.Collections.Immutable;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Readings;

/// <summary>What one probe has told so far, and whether its next reading is believed.</summary>
public sealed record ProbeLog
{
    /// <summary>How late a reading may come. Source (choice): the same for files and messages.</summary>
    public static readonly TimeSpan LatestArrival = TimeSpan.FromMinutes(15);

    /// <summary>How far ahead of ours a probe's clock may run. Source (choice).</summary>
    public static readonly TimeSpan ClockTolerance = TimeSpan.FromMinutes(2);

    /// <summary>Of several readings within this time one is looked at, and followed [1 s]. Source (choice): no bay moves faster.</summary>
    public static readonly TimeSpan Pace = TimeSpan.FromSeconds(1);

    private static readonly TimeSpan LongestPause = TimeSpan.FromMinutes(30);

    private ProbeHabit? _habit;
    private RawReading? _doubted;
    private DateTimeOffset? _lookedAt;

    /// <summary>
    /// What readings of a clock that runs ahead said of their instant, which is not the one they count from: by that they are known again.
    /// One so old that it would come too late is let go.
    /// </summary>
    private ImmutableSortedSet<DateTimeOffset> _ahead = [];

    private RecentNumbers _numbers = RecentNumbers.None;

    /// <summary>Starts the log of a probe.</summary>
    /// <param name="probe">The probe.</param>
    /// <param name="watchedSince">Since when it should have been heard.</param>
    public ProbeLog(Probe probe, DateTimeOffset watchedSince)
    {
        Probe = probe;
        HeardAt = watchedSince;
    }

    /// <summary>The probe.</summary>
    public Probe Probe { get; private init; }

    /// <summary>Its believed air samples in order of measuring.</summary>
    public Trail<Sample> Air { get; private init; } = new();

    /// <summary>Its believed panel samples in order of measuring.</summary>
    public Trail<Sample> Panel { get; private init; } = new();

    /// <summary>When a believed reading last arrived; at first, since when one was awaited.</summary>
    public DateTimeOffset HeardAt { get; private init; }

    /// <summary>What is known of the device's clock.</summary>
    public DeviceClock Clock { get; private init; } = DeviceClock.Unknown;

    /// <summary>Whether the reading taken in last is one at which it is looked at: the first after the pace, or one that came late.</summary>
    public bool IsLook { get; private init; }

    /// <summary>When the probe counts as silent, unless it is heard before.</summary>
    public DateTimeOffset SilentAt => HeardAt + Probe.SilentAfter;

    /// <summary>Says whether a reading is believed.</summary>
    /// <param name="raw">The reading, of this probe.</param>
    /// <returns>Why not; null where it is believed.</returns>
    public Disbelief? Doubt(RawReading raw)
    {
        bool tellsAir = raw.AirC is not null && raw.HumidityPct is not null;
        if (Probe.Measures == Measures.Panel ? raw.PanelC is null : !tellsAir)
        {
            return Disbelief.Malformed;
        }

        if (raw.MeasuredAt - raw.ReceivedAt > ClockTolerance)
        {
            return Disbelief.Future;
        }

        if (raw.ReceivedAt - raw.MeasuredAt > LatestArrival)
        {
            return Disbelief.Late;
        }

        if (Tells(InstantOf(raw)) || _ahead.Contains(_numbers.Claim(raw)) || IsSame(_doubted, raw))
        {
            return Disbelief.Duplicate;
        }

        if (_numbers.Doubt(raw) is { } doubt)
        {
            return doubt;
        }

        if (!IsInRange(Corrected(raw)) || !IsInRange(raw))
        {
            return Disbelief.OutOfRange;
        }

        if (_habit?.IsFrozenAt(raw.MeasuredAt, Value(raw)) == true)
        {
            return Disbelief.Frozen;
        }

        bool isStep = _doubted is not null && PlausibleChange.Is(_doubted, raw);
        return isStep || LastBelieved is null || PlausibleChange.Is(LastBelieved, raw) ? null : Disbelief.Implausible;
    }

    /// <summary>Takes a believed reading in.</summary>
    /// <param name="raw">A reading that <see cref="Doubt"/> did not doubt.</param>
    /// <returns>The log with it.</returns>
    public ProbeLog Believe(RawReading raw)
    {
        DateTimeOffset at = InstantOf(raw), claim = _numbers.Claim(raw);
        bool isNewest = LastBelieved is null || at > MeasuredAt(LastBelieved);
        return this with
        {
            Air = Probe.Measures != Measures.Panel ? Air.Insert(AirSample(raw, at)) : Air,
            Panel = raw.PanelC is { } panelC ? Panel.Insert(PanelSample(panelC, at)) : Panel,
            HeardAt = raw.ReceivedAt > HeardAt ? raw.ReceivedAt : HeardAt,
            LastBelieved = isNewest ? raw : LastBelieved,
            _habit = isNewest ? _habit?.After(at, Value(raw)) ?? ProbeHabit.Of(at, Value(raw), SilenceOfHabit) : _habit,
            _doubted = null,
            IsLook = !isNewest || !(raw.ReceivedAt - _lookedAt < Pace),
            _lookedAt = raw.ReceivedAt - _lookedAt < Pace ? _lookedAt : raw.ReceivedAt,
            _ahead = at < claim ? Ahead(raw.ReceivedAt, claim) : _ahead,
            _numbers = _numbers.With(raw),
            Clock = Clock.Hear(raw),
        };
    }

    /// <summary>Learns of the device's clock from a reading that is not believed.</summary>
    /// <param name="raw">The reading.</param>
    /// <returns>The log that has learnt.</returns>
    public ProbeLog Time(RawReading raw) => Clock.Hear(raw) is var clock && clock != Clock ? this with { Clock = clock } : this;

    /// <summary>The log of the same probe, set up otherwise: what it told so far stays as it was corrected then.</summary>
    /// <param name="probe">The probe as it is from now on.</param>
    /// <returns>The log.</returns>
    public ProbeLog Of(Probe probe) => this with { Probe = probe };

    /// <summary>From when on a reading changes what the probe says: values run straight from its own reading before.</summary>
    /// <param name="raw">A reading that is not in the log.</param>
    /// <returns>When the reading before it was measured; where there is none, when it was measured itself.</returns>
    public DateTimeOffset ChangesFrom(RawReading raw)
    {
        DateTimeOffset at = InstantOf(raw);
        DateTimeOffset air = Probe.Measures != Measures.Panel ? Air.InstantBefore(at) : at;
        DateTimeOffset panel = raw.PanelC is not null ? Panel.InstantBefore(at) : at;
        return air < panel ? air : panel;
    }

    /// <summary>Remembers a reading that jumped too far: a second one beside it makes it a step.</summary>
    /// <param name="raw">The reading.</param>
    /// <returns>The log that remembers it.</returns>
    public ProbeLog Suspect(RawReading raw) => this with { _doubted = raw };

    /// <summary>Remembers that a frozen probe was heard: it repeats itself, it is not silent.</summary>
    /// <param name="raw">The reading.</param>
    /// <returns>The log that remembers it.</returns>
    public ProbeLog Repeat(RawReading raw) => this with { _habit = _habit?.After(MeasuredAt(raw), Value(raw)) };

    /// <summary>Lets go of what nobody asks for any more.</summary>
    /// <param name="from">The instant up to which nobody does; what was measured last by then still held at it.</param>
    /// <param name="fresh">What was measured after it stays as it is.</param>
    /// <param name="spacing">How close together what is older is kept.</param>
    /// <param name="isKept">Which panel temperatures stay all the same: under a lamp each of them counts.</param>
    /// <returns>The log.</returns>
    public ProbeLog Tidy(DateTimeOffset from, DateTimeOffset fresh, TimeSpan spacing, Func<DateTimeOffset, bool> isKept) =>
        this with { Air = Air.Thin(from, fresh, spacing, _ => false), Panel = Panel.Thin(from, fresh, spacing, isKept) };

    private RawReading? LastBelieved { get; init; }

    /// <summary>A run is broken by a silence, and by no less than half an hour without a word where the probe is slower than it says.</summary>
    private TimeSpan SilenceOfHabit => Probe.SilentAfter > LongestPause ? Probe.SilentAfter : LongestPause;

    private static (double, double, double) Value(RawReading raw) => (raw.AirC ?? 0, raw.HumidityPct ?? 0, raw.PanelC ?? 0);

    private static DateTimeOffset MeasuredAt(RawReading raw) => raw.MeasuredAt < raw.ReceivedAt ? raw.MeasuredAt : raw.ReceivedAt;

    private static bool IsSame(RawReading? told, RawReading raw) => told?.MeasuredAt == raw.MeasuredAt && told.Sequence == raw.Sequence;

    /// <summary>From when a reading counts: what it claims, and never after it arrived.</summary>
    private DateTimeOffset InstantOf(RawReading raw) => _numbers.Claim(raw) is var claim && claim < raw.ReceivedAt ? claim : raw.ReceivedAt;

    private ImmutableSortedSet<DateTimeOffset> Ahead(DateTimeOffset receivedAt, DateTimeOffset claim)
    {
        ImmutableSortedSet<DateTimeOffset> ahead = _ahead;
        while (!ahead.IsEmpty && receivedAt - ahead.Min > LatestArrival)
        {
            ahead = ahead.Remove(ahead.Min);
        }

        return ahead.Add(claim);
    }

    private bool IsInRange(RawReading raw) => PlausibleChange.IsInRange(raw, Probe.AccuracyHumidityPct);

    /// <summary>The reading with the calibration applied, its humidity as it is: that is clamped to what air can hold.</summary>
    private RawReading Corrected(RawReading raw) => raw with
    {
        AirC = raw.AirC + Probe.OffsetTemperatureK,
        PanelC = Probe.Measures == Measures.Panel ? raw.PanelC + Probe.OffsetTemperatureK : raw.PanelC,
    };

    private Sample AirSample(RawReading raw, DateTimeOffset at)
    {
        var air = new Celsius(raw.AirC!.Value + Probe.OffsetTemperatureK);
        var humidity = new RelativeHumidity(Math.Clamp(raw.HumidityPct!.Value + Probe.OffsetHumidityPct, 1, 100));
        return new Sample(at, air.Kelvins, humidity.Fraction * SaturationPressure.OverWaterPa(air.Kelvins), humidity.Percent);
    }

    private Sample PanelSample(double panelC, DateTimeOffset at)
    {
        double offsetK = Probe.Measures == Measures.Panel ? Probe.OffsetTemperatureK : 0;
        return new Sample(at, new Celsius(panelC + offsetK).Kelvins, 0, 0);
    }

    private bool Tells(DateTimeOffset at)
    {
        Trail<Sample> own = Probe.Measures == Measures.Panel ? Panel : Air;
        int before = own.CountBefore(at);
        return before < own.Count && own[before].At == at;
    }
}
