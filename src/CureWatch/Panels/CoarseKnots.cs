using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>The instants at which a climate is followed of which nobody waits for the minutes: those that are kept once it is old.</summary>
internal static class CoarseKnots
{
    /// <summary>Finds them.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="after">The stretch's start, left out.</param>
    /// <param name="to">The stretch's end.</param>
    /// <returns>
    /// The instants in order, and who tells what was since the one before. All readings where more than one probe tells, or one was doubted; else the last
    /// within ten minutes each, as far as none is missing before it and the next has come: then the probe is taken to speak no more often.
    /// </returns>
    public static IEnumerable<(DateTimeOffset Knot, Watch By)> Of(Watch watch, DateTimeOffset after, DateTimeOffset to)
    {
        if (watch is not { Air: [{ Stills.IsEmpty: true } only], Awaited.IsEmpty: true, Spots.IsEmpty: true })
        {
            return watch.Knots(after, to).Select(k => (k, watch));
        }

        Watch seldom = watch with { Around = new AirMixes([only with { Every = Ages.Coarse }]) };
        return Apart(only, after, to).Select(k => (k.Knot, k.IsOneStep ? watch : seldom));
    }

    private static IEnumerable<(DateTimeOffset Knot, bool IsOneStep)> Apart(Source only, DateTimeOffset after, DateTimeOffset to)
    {
        Trail<Sample> samples = only.Samples;
        int end = samples.CountUpTo(to);
        for (int i = samples.CountUpTo(after); i < end; i++)
        {
            int first = i;
            while (i + 1 < end && samples[i + 1].At - after <= Ages.Coarse && GoesOn(i) && GoesOn(i + 1))
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

        bool GoesOn(int index) => samples[index].HeldWithinK <= 0 && index > 0 && !only.IsGapForEvaporation(samples[index].At - samples[index - 1].At);
    }
}
