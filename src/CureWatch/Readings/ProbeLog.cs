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

    private RawReading? _doubted;
    private DateTimeOffset? _lookedAt;
    private ClaimsAhead _ahead = ClaimsAhead.None;
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

    /// <summary>Whether the reading taken in last is one at which it is looked at: its newest, and the first after the pace.</summary>
    public bool IsLook { get; private init; }

    /// <summary>When the last such reading arrived; null before the first.</summary>
    internal DateTimeOffset? LookedAt => _lookedAt;

    /// <summary>When it would have to be heard by and believed, to be followed without a gap.</summary>
    public DateTimeOffset SilentAt => HeardAt + Probe.SilentAfter;

    /// <summary>When the probe counts as silent, unless it says anything before, believed or not.</summary>
    public DateTimeOffset QuietAt => Refused is { } refused && refused.At > HeardAt ? refused.At + Probe.SilentAfter : SilentAt;

    /// <summary>Why it is heard and not believed; null while it is.</summary>
    public Refusal? Refused { get; private init; }

    /// <summary>Since when a majority of its twins says otherwise, so that it is not followed; null while none does.</summary>
    public DateTimeOffset? OutvotedAt { get; private init; }

    /// <summary>Whether it agrees with them again: it is followed from its next reading on.</summary>
    public bool IsBackInFavour { get; private init; }

    /// <summary>The newest of what it said that a sound sensor may have measured, whether its twins bear it out or not; null where it said nothing.</summary>
    public Sample? Newest { get; private init; }

    /// <summary>Whether it repeats itself, and when for longer than it can be right.</summary>
    public ProbeStanding Standing { get; private init; } = ProbeStanding.Unknown;

    /// <summary>When it was not heard or not believed for too long.</summary>
    public Lapses Lapses { get; private init; } = Lapses.None;

    /// <summary>How it differed from its twins, over the weeks.</summary>
    public TwinRecord Beside { get; private init; } = TwinRecord.None;

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

        if (Own.Has(InstantOf(raw)) || _ahead.Has(_numbers.Claim(raw)) || IsSame(_doubted, raw))
        {
            return Disbelief.Duplicate;
        }

        if (_numbers.Doubt(raw) is { } doubt)
        {
            return doubt;
        }

        RawReading corrected = Correction.Of(Probe, raw, MeasuredAt(raw));
        if (!PlausibleChange.IsInRange(corrected, Probe.AccuracyHumidityPct) || !PlausibleChange.IsInRange(raw, Probe.AccuracyHumidityPct))
        {
            return Disbelief.OutOfRange;
        }

        if (Standing.IsFrozenAt(raw))
        {
            return Disbelief.Frozen;
        }

        bool isStep = _doubted is not null && PlausibleChange.Is(_doubted, raw);
        bool isPlausible = isStep || LastBelieved is null || PlausibleChange.Is(LastBelieved, raw);
        return !isPlausible ? Disbelief.Implausible
            : OutvotedAt is not null && !IsBackInFavour ? Disbelief.Disagreeing
            : Standing.IsHalfStuckAt(raw) ? Disbelief.Frozen
            : null;
    }

    /// <summary>Takes a believed reading in.</summary>
    /// <param name="raw">A reading that <see cref="Doubt"/> did not doubt.</param>
    /// <param name="held">What is taken for its temperature, where only its vapour pressure is believed.</param>
    /// <param name="why">Why not all of it is believed; null where it is.</param>
    /// <returns>The log with it.</returns>
    public ProbeLog Believe(RawReading raw, HeldTemperature? held = null, Disbelief? why = null)
    {
        DateTimeOffset at = InstantOf(raw), claim = _numbers.Claim(raw);
        bool isNewest = LastBelieved is null || at > MeasuredAt(LastBelieved), isLook = isNewest && !(raw.ReceivedAt - _lookedAt < Pace);
        Sample measured = Correction.Own(Probe, raw, at), own = held is null ? measured : measured.HeldAt(held);
        return this with
        {
            Air = Probe.Measures != Measures.Panel ? Trusted(Air).Insert(own) : Air,
            Panel = raw.PanelC is { } panelC ? Trusted(Panel).Insert(Correction.Panel(Probe, panelC, at)) : Panel,
            OutvotedAt = null,
            IsBackInFavour = false,
            HeardAt = raw.ReceivedAt > HeardAt ? raw.ReceivedAt : HeardAt,
            LastBelieved = isNewest ? raw : LastBelieved,
            Standing = isNewest ? Standing.After(Probe, raw, at) : Standing,
            Lapses = isNewest && LastBelieved is { } last ? Lapses.With(Probe, MeasuredAt(last), at, Lapses.WhyOf(this, at)) : Lapses,
            Newest = isNewest ? own : Newest,
            Refused = why is { } reason ? Refusal.Of(Refused, reason, raw.ReceivedAt) : null,
            _doubted = null,
            IsLook = isLook,
            _lookedAt = isLook ? raw.ReceivedAt : _lookedAt,
            _ahead = at < claim ? _ahead.With(raw.ReceivedAt, claim) : _ahead,
            _numbers = _numbers.With(raw),
            Clock = Clock.Hear(raw),
        };
    }

    /// <summary>Learns of the device's clock from a reading that is not believed for its instant.</summary>
    /// <param name="raw">The reading.</param>
    /// <param name="why">Why not.</param>
    /// <returns>The log that has learnt.</returns>
    public ProbeLog Time(RawReading raw, Disbelief why) => this with { Clock = Clock.Refuse(raw, why) };

    /// <summary>The log of the same probe, set up otherwise: what it told so far stays as it was corrected then.</summary>
    /// <param name="probe">The probe as it is from now on.</param>
    /// <returns>The log; a probe that is read otherwise from now on is compared with its twins anew.</returns>
    public ProbeLog Of(Probe probe) => Probe.ReadsAs(probe)
        ? this with { Probe = probe }
        : this with { Probe = probe, IsBackInFavour = OutvotedAt is not null, Newest = null, Beside = TwinRecord.None };

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

    /// <summary>Remembers a reading of a probe that is heard and not believed.</summary>
    /// <param name="raw">The reading.</param>
    /// <param name="why">Why not: a reason that <see cref="Refusal.TellsOfTheProbe"/>.</param>
    /// <returns>The log that remembers it: a second one beside one that jumped too far makes it a step, and what repeats itself goes on doing so.</returns>
    public ProbeLog Refuse(RawReading raw, Disbelief why) => this with
    {
        _doubted = why == Disbelief.Implausible ? raw : _doubted,
        Standing = why is Disbelief.Frozen or Disbelief.Disagreeing ? Standing.After(Probe, raw, MeasuredAt(raw)) : Standing,
        Newest = why == Disbelief.Disagreeing ? Read(raw) : Newest,
        Refused = Refusal.Of(Refused, why, raw.ReceivedAt),
    };

    /// <summary>The log of a probe a majority of twins contradicts, or contradicts no more.</summary>
    /// <param name="at">Since when; null where it is believed again.</param>
    /// <returns>The log.</returns>
    public ProbeLog Outvote(DateTimeOffset? at) => this with { OutvotedAt = at ?? OutvotedAt, IsBackInFavour = at is null };

    /// <summary>The log with what its newest reading says beside its twins.</summary>
    /// <param name="record">How it differs from them.</param>
    /// <returns>The log.</returns>
    public ProbeLog Compare(TwinRecord record) => this with { Beside = record };

    /// <summary>What a reading says, corrected, as one thing among what its twins say.</summary>
    /// <param name="sample">One of its samples.</param>
    /// <returns>The testimony.</returns>
    public Testimony Testify(Sample sample) =>
        new(sample.Kelvins, sample.VapourPressurePa, Probe.AccuracyTemperatureK, Probe.AccuracyHumidityPct);

    /// <summary>What a reading says of what the probe is for, corrected.</summary>
    /// <param name="raw">A reading that lacks nothing.</param>
    /// <returns>The sample, whether it is believed or not.</returns>
    public Sample Read(RawReading raw) => Correction.Own(Probe, raw, MeasuredAt(raw));

    /// <summary>Lets go of what nobody asks for any more.</summary>
    /// <param name="retention">What is kept.</param>
    /// <param name="isKept">Which panel temperatures stay all the same: under a lamp each of them counts.</param>
    /// <returns>The log.</returns>
    public ProbeLog Tidy(Retention retention, Func<DateTimeOffset, bool> isKept) => this with
    {
        Air = Air.Thin(retention, _ => false),
        Panel = Panel.Thin(retention, isKept),
        Standing = Standing.Since(retention.From),
    };

    /// <summary>The sample a run began with.</summary>
    /// <param name="since">When it did.</param>
    /// <returns>What was measured then; where only what was measured before is kept, that.</returns>
    internal Sample BeginningOf(DateTimeOffset since) =>
        Own is { Count: > 0 } own ? own[Math.Max(0, own.CountUpTo(since) - 1)] with { At = since } : Newest!.Value;

    /// <summary>The log of a probe of which it is known otherwise whether it repeats itself.</summary>
    /// <param name="standing">What is known.</param>
    /// <returns>The log.</returns>
    internal ProbeLog As(ProbeStanding standing) => this with { Standing = standing };

    private RawReading? LastBelieved { get; init; }

    private Trail<Sample> Own => Probe.Measures == Measures.Panel ? Panel : Air;

    private static DateTimeOffset MeasuredAt(RawReading raw) => raw.MeasuredAt < raw.ReceivedAt ? raw.MeasuredAt : raw.ReceivedAt;

    private static bool IsSame(RawReading? told, RawReading raw) => told?.MeasuredAt == raw.MeasuredAt && told.Sequence == raw.Sequence;

    /// <summary>From when a reading counts: what it claims, and never after it arrived.</summary>
    private DateTimeOffset InstantOf(RawReading raw) => _numbers.Claim(raw) is var claim && claim < raw.ReceivedAt ? claim : raw.ReceivedAt;

    /// <summary>What it said before it was outvoted is no beginning of what it says after.</summary>
    private Trail<Sample> Trusted(Trail<Sample> trail) => OutvotedAt is null ? trail : new Trail<Sample>();
}
