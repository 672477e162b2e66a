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

    /// <summary>The newest sample.</summary>
    public Sample Last => Samples.Last;

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

    /// <summary>The readings around the stretch that begins at an instant.</summary>
    /// <param name="from">The instant.</param>
    /// <returns>The bracket, open where nothing was measured after the instant; null where nothing was measured by then.</returns>
    public Bracket? Around(DateTimeOffset from)
    {
        int before = Samples.CountWhile(s => s.At <= from);
        if (before == 0)
        {
            return null;
        }

        Sample first = Samples[before - 1];
        if (before == Samples.Count)
        {
            return new Bracket(first.At, first.Kelvins, first.VapourPressurePa, null, first.Kelvins, first.VapourPressurePa);
        }

        Sample second = Samples[before];
        return new Bracket(first.At, first.Kelvins, first.VapourPressurePa, second.At, second.Kelvins, second.VapourPressurePa);
    }
}
