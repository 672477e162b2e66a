using System.Collections.Immutable;
using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>A probe's samples as a source of a climate, with how far apart they may lie.</summary>
/// <param name="Samples">At least one sample, in order of measuring.</param>
/// <param name="Every">How often the probe reports.</param>
public sealed record Source(Trail<Sample> Samples, TimeSpan Every)
{
    /// <summary>Longest stretch without a reading that evaporation is credited over [2 min]. Source (choice): flash lasts minutes.</summary>
    public static readonly TimeSpan EvaporationLimit = TimeSpan.FromMinutes(2);

    /// <summary>Longest stretch without a reading that cure is credited over [30 min]. Source (choice): a bay drifts a few K an hour.</summary>
    public static readonly TimeSpan CureLimit = TimeSpan.FromMinutes(30);

    /// <summary>The probe's id; null where nobody asks which it is.</summary>
    public string? Probe { get; init; }

    /// <summary>When it tells of a surface under a lamp, and not of others of its kind.</summary>
    public ImmutableArray<Spell> Lent { get; init; } = [];

    /// <summary>Its ± limit of temperature [K], by which twins are held against each other.</summary>
    public double LimitK { get; init; }

    /// <summary>Its ± limit of humidity [% RH].</summary>
    public double LimitPct { get; init; }

    /// <summary>When its probe stood still, in order: then it is not believed what it repeated.</summary>
    public ImmutableArray<Still> Stills { get; init; } = [];

    /// <summary>The newest sample.</summary>
    public Sample Last => Samples.Last;

    /// <summary>Whether it tells of a surface under a lamp at an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>True where it says nothing of others.</returns>
    public bool IsLentAt(DateTimeOffset instant)
    {
        foreach (Spell lamp in Lent)
        {
            if (lamp.Covers(instant))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether nobody waits for it any more: the air was heard too long after its last reading.</summary>
    /// <param name="instant">The instant, not before the first sample.</param>
    /// <param name="airHeardAt">When the air was heard last by then.</param>
    /// <returns>False where the air fell silent with it, or sooner: then nobody can tell what the panel does.</returns>
    public bool IsGivenUpAt(DateTimeOffset instant, DateTimeOffset airHeardAt) => IsGapForCure(airHeardAt - Samples[Math.Max(0, CountUpTo(instant) - 1)].At);

    /// <summary>Whether it tells of the panel at an instant: it was heard, not under a lamp over another surface, and is not given up.</summary>
    /// <param name="instant">The instant.</param>
    /// <param name="airHeardAt">When the air was heard last by then.</param>
    /// <returns>False where others have to.</returns>
    public bool TellsAt(DateTimeOffset instant, DateTimeOffset airHeardAt) =>
        CountUpTo(instant) is > 0 and var before && !IsLentAt(instant) && !IsLentAt(Samples[before - 1].At) && !IsGivenUpAt(instant, airHeardAt);

    /// <summary>Whether a stretch between two readings is a gap for evaporation: too long, and at least one reading is missing.</summary>
    /// <param name="stretch">Its length.</param>
    /// <returns>True for a gap.</returns>
    public bool IsGapForEvaporation(TimeSpan stretch) => stretch > EvaporationLimit && stretch > 1.5 * Every;

    /// <summary>Whether a stretch between two readings is a gap for cure: too long, and at least one reading is missing.</summary>
    /// <param name="stretch">Its length.</param>
    /// <returns>True for a gap.</returns>
    public bool IsGapForCure(TimeSpan stretch) => IsGapForCure(stretch, Every);

    /// <summary>Whether a stretch between two readings of a probe is a gap for cure.</summary>
    /// <param name="stretch">Its length.</param>
    /// <param name="every">How often the probe reports.</param>
    /// <returns>True for a gap.</returns>
    public static bool IsGapForCure(TimeSpan stretch, TimeSpan every) => stretch > CureLimit && stretch > 1.5 * every;

    /// <summary>When it was heard last by an instant; null where it was not.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>The instant of its sample.</returns>
    public DateTimeOffset? HeardBy(DateTimeOffset instant) => CountUpTo(instant) is > 0 and var before ? Samples[before - 1].At : null;

    /// <summary>The readings around a stretch.</summary>
    /// <param name="from">Its start.</param>
    /// <param name="to">Its end, not before the start.</param>
    /// <returns>The bracket, open from the newest reading on where nothing was measured at the end or after; null where nothing was by the start.</returns>
    public Bracket? Around(DateTimeOffset from, DateTimeOffset to)
    {
        int before = CountUpTo(from);
        if (before == 0)
        {
            return null;
        }

        if (before == Samples.Count || Last.At < to)
        {
            Sample last = AsRead(Last);
            return new Bracket(last.At, last.Kelvins, last.VapourPressurePa, null, last.Kelvins, last.VapourPressurePa);
        }

        (Sample first, Sample second) = (AsRead(Samples[before - 1]), AsRead(Samples[Math.Max(before, Samples.CountBefore(to))]));
        return new Bracket(first.At, first.Kelvins, first.VapourPressurePa, second.At, second.Kelvins, second.VapourPressurePa);
    }

    /// <summary>How far a temperature may be off that was held instead of measured.</summary>
    /// <param name="at">When, not before the first sample.</param>
    /// <returns>The ± limit [K] that the sample by then has; 0 where it was measured.</returns>
    public double HeldWithinK(DateTimeOffset at) => Samples[Math.Max(0, CountUpTo(at) - 1)].HeldWithinK;

    /// <summary>The instants inside a stretch at which the source is followed: those of its readings, as far as they lie apart by the pace.</summary>
    /// <param name="after">The stretch's start, left out.</param>
    /// <param name="to">The stretch's end, taken in.</param>
    /// <param name="instants">Where they are put, in order.</param>
    public void Follow(DateTimeOffset after, DateTimeOffset to, List<DateTimeOffset> instants)
    {
        int next = CountUpTo(after);
        DateTimeOffset earliest = next > 0 ? Samples[next - 1].At + ProbeLog.Pace : after;
        while (next < Samples.Count && Samples[next].At <= to)
        {
            if (Samples[next].At >= earliest)
            {
                instants.Add(Samples[next].At);
                earliest = Samples[next].At + ProbeLog.Pace;
                next++;
            }
            else
            {
                next = Last.At < earliest ? Samples.Count : Samples.CountBefore(earliest);
            }
        }
    }

    /// <summary>Whether its probe stood still over a stretch, in what it says of temperature or of humidity.</summary>
    /// <param name="from">The stretch's start.</param>
    /// <param name="to">Its end.</param>
    /// <returns>When it began to; null where it did not.</returns>
    public DateTimeOffset? StoodStillSince(DateTimeOffset from, DateTimeOffset to)
    {
        DateTimeOffset? since = null;
        for (int i = Stills.Length - 1; i >= 0; i--)
        {
            since = Stills[i].Covers(from, to) && !(since <= Stills[i].From.At) ? Stills[i].From.At : since;
        }

        return since;
    }

    /// <summary>The same as if its probe had stood still since an instant at most.</summary>
    internal Source StandingSince(DateTimeOffset instant) => Stills.All(s => s.To is not null || s.From.At >= instant)
        ? this
        : this with { Stills = [.. Stills.Select(s => s.To is null && s.From.At < instant ? s with { From = s.From with { At = instant } } : s)] };

    /// <summary>What it told up to an instant, as if it had fallen silent then.</summary>
    /// <param name="instant">The instant, not before the first sample.</param>
    /// <returns>The shorter source.</returns>
    public Source UpTo(DateTimeOffset instant) => this with { Samples = Samples.Take(Math.Max(1, CountUpTo(instant))) };

    /// <summary>What its probe says between two readings, and how far it may be off.</summary>
    internal Testimony Testify(Bracket around, DateTimeOffset at) => new(around.KelvinsAt(at), around.VapourPressurePaAt(at), LimitK, LimitPct);

    private Sample AsRead(Sample sample)
    {
        if (Stills.IsEmpty)
        {
            return sample;
        }

        Sample read = Stills.Over(Quantity.Temperature, sample.At, sample.At)?.Read(sample) ?? sample;
        return Stills.Over(Quantity.Humidity, sample.At, sample.At)?.Read(read) ?? read;
    }

    private int CountUpTo(DateTimeOffset instant) => Samples.CountUpTo(instant);
}
