using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>The instants at which a climate is followed of which nobody waits for the minutes: those that are kept once it is old.</summary>
internal static class CoarseKnots
{
    /// <summary>Whether there is no more to a climate than the readings of one probe of the air, none of them repeated.</summary>
    /// <param name="watch">The probes.</param>
    /// <returns>False where several tell, and what they say together may change within minutes.</returns>
    public static bool AreEnoughFor(Watch watch) => watch is { Air: [{ Stills.IsEmpty: true }], Awaited.IsEmpty: true, Spots.IsEmpty: true };

    /// <summary>Finds them.</summary>
    /// <param name="watch">The probes, for which they are enough.</param>
    /// <param name="after">The stretch's start, left out.</param>
    /// <param name="to">The stretch's end.</param>
    /// <returns>
    /// The instants in order, and who tells what was since the one before: within ten minutes each the last reading, as far as none is missing or held before
    /// it and the next has come, as if the probe spoke no more often; else each reading.
    /// </returns>
    public static IEnumerable<(DateTimeOffset Knot, Watch By)> Of(Watch watch, DateTimeOffset after, DateTimeOffset to)
    {
        Watch seldom = watch with { Mixes = watch.Mixes.Seldom };
        return Apart(watch.Air[0], after, to).Select(k => (k.Knot, k.IsOneStep ? watch : seldom));
    }

    private static IEnumerable<(DateTimeOffset Knot, bool IsOneStep)> Apart(Source only, DateTimeOffset after, DateTimeOffset to)
    {
        Trail<Sample> samples = only.Samples;
        int end = samples.CountUpTo(to);
        for (int i = samples.CountUpTo(after); i < end; i++)
        {
            int first = i;
            while (i + 1 < end && GoesOn(i) && GoesOn(i + 1) && samples[i + 1].At - samples[first - 1].At <= Ages.Coarse)
            {
                i++;
            }

            if (i + 1 == end && samples[i].At - after < Ages.Coarse)
            {
                yield break;
            }

            yield return (samples[i].At, i == first);
            after = samples[i].At;
        }

        bool GoesOn(int index) => index > 0 && samples[index] is { HeldWithinK: <= 0 } sample && samples[index - 1] is { HeldWithinK: <= 0 } before
            && !only.IsGapForEvaporation(sample.At - before.At);
    }
}
