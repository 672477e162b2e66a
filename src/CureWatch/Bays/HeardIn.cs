using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Which probes of a bay tell one of its airs at an instant, and what they say: whoever asks goes by the same.</summary>
internal static class HeardIn
{
    /// <summary>Whether a probe tells an air: it hangs there, and is believed.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="index">Which of its probes.</param>
    /// <param name="air">The place that stands for the air.</param>
    /// <param name="at">The instant, not after the present.</param>
    public static bool Tells(BayState bay, int index, Place air, DateTimeOffset at) =>
        bay.Plan.Probes[index] is var mount && mount.Probe.Measures != Measures.Outdoor && PlaceAir.Of(mount.Place) == air && IsBelieved(bay.Logs[index], at);

    /// <summary>Whether a probe is believed: no majority of its twins says otherwise, and it is not surely stuck. What one repeats is no present.</summary>
    public static bool IsBelieved(ProbeLog log, DateTimeOffset at) => !(log.OutvotedAt <= at) && !(log.Refused is { Why: Disbelief.Frozen } stuck && stuck.Since <= at);

    /// <summary>What an air probe says of the air; null where it is none, or was not heard in time.</summary>
    public static Sample? Air(BayState bay, int index, DateTimeOffset at) =>
        bay.Logs[index] is { Probe.Measures: Measures.Air } log ? Newest(log.Air, log.Probe, at) : null;

    /// <summary>What a probe says of a panel; null where it says nothing of one, or was not heard in time.</summary>
    public static Sample? Panel(BayState bay, int index, DateTimeOffset at) => Newest(bay.Logs[index].Panel, bay.Logs[index].Probe, at);

    /// <summary>Whether a lamp burns on what a probe sits on: then it tells of the lamp.</summary>
    public static bool IsUnderLamp(BayState bay, int index, DateTimeOffset at)
    {
        foreach (Spell lamp in LampHeat.LentTo(bay, index, own: null))
        {
            if (lamp.Covers(at))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The newest of samples that was measured by an instant; null where that is too long ago.</summary>
    public static Sample? Newest(Trail<Sample> samples, Probe probe, DateTimeOffset at)
    {
        int count = samples.Count > 0 && samples.Last.At > at ? samples.CountUpTo(at) : samples.Count;
        return count > 0 && !Source.IsGapForCure(at - samples[count - 1].At, probe.Every) ? samples[count - 1] : null;
    }
}
