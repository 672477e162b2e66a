using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>The air over a stretch, as several probes tell it.</summary>
/// <param name="Closest">The probe with the shortest stretch between its readings.</param>
/// <param name="Around">Those readings.</param>
/// <param name="Start">Mean of the probes heard in time, at the start.</param>
/// <param name="End">Mean of the probes heard in time, at the end.</param>
/// <param name="WithMissing">The mean with the probes that are missing, in two guesses; empty where none is.</param>
internal sealed record AirMix(Source Closest, Bracket Around, Exposure Start, Exposure End, ImmutableArray<Alternative> WithMissing)
{
    /// <summary>What a shifted vapour pressure never falls below [Pa]: drier than any bay. Source (choice).</summary>
    private const double LeastVapourPressurePa = 1;

    /// <summary>Mixes the air over a stretch with no measurement inside.</summary>
    /// <param name="air">The air probes.</param>
    /// <param name="from">The stretch's start.</param>
    /// <param name="to">Its end.</param>
    /// <param name="now">The present, to which an open bracket reaches.</param>
    /// <returns>The air; null where it was not yet measured. Where no probe was heard in time, the one that was missing for the shortest.</returns>
    public static AirMix? Over(ImmutableArray<Source> air, DateTimeOffset from, DateTimeOffset to, DateTimeOffset now)
    {
        (Source Source, Bracket Around)? closest = null;
        var heard = new List<Bracket>(air.Length);
        List<Source>? missing = null;
        foreach (Source source in air)
        {
            if (source.Around(from, to) is not { } around)
            {
                continue;
            }

            closest = closest is null || around.Length(now) < closest.Value.Around.Length(now) ? (source, around) : closest;
            if (!source.IsGapForCure(around.Length(now)))
            {
                heard.Add(around);
            }
            else
            {
                (missing ??= []).Add(source);
            }
        }

        if (closest is not { } c)
        {
            return null;
        }

        if (heard.Count == 0)
        {
            return new AirMix(c.Source, c.Around, Mean([c.Around], from), Mean([c.Around], to), []);
        }

        (Exposure start, Exposure end) = (Mean(heard, from), Mean(heard, to));
        return new AirMix(c.Source, c.Around, start, end, missing is null ? [] : Including(missing, air, heard.Count, start, end, from));
    }

    /// <summary>
    /// A probe that is missing is taken to say what it said last, and to differ from the others by as much as it did then: either may be true.
    /// </summary>
    private static ImmutableArray<Alternative> Including(
        List<Source> missing, ImmutableArray<Source> air, int heard, Exposure start, Exposure end, DateTimeOffset from)
    {
        double keptKelvins = 0, keptPa = 0, heldKelvins = 0, heldPa = 0;
        foreach (Source lost in missing)
        {
            Bracket last = lost.Around(from, from)!;
            List<Bracket> then = [.. air.Where(a => !missing.Contains(a)).Select(a => a.Around(last.From, last.From)).OfType<Bracket>()];
            Exposure others = then.Count > 0 ? Mean(then, last.From) : start;
            keptKelvins += last.FromKelvins - others.AirKelvins;
            keptPa += last.FromVapourPressurePa - others.VapourPressurePa;
            heldKelvins += last.FromKelvins;
            heldPa += last.FromVapourPressurePa;
        }

        double all = heard + missing.Count;
        return
        [
            new Alternative(Shift(start, keptKelvins / all, keptPa / all), Shift(end, keptKelvins / all, keptPa / all)),
            new Alternative(Held(start), Held(end)),
        ];

        Exposure Held(Exposure mean) => At(
            ((mean.AirKelvins * heard) + heldKelvins) / all, ((mean.VapourPressurePa * heard) + heldPa) / all);
    }

    private static Exposure Shift(Exposure exposure, double kelvins, double pascals) => At(
        exposure.AirKelvins + kelvins, Math.Max(LeastVapourPressurePa, exposure.VapourPressurePa + pascals));

    private static Exposure Mean(List<Bracket> brackets, DateTimeOffset at)
    {
        double kelvins = 0, pascals = 0;
        foreach (Bracket bracket in brackets)
        {
            kelvins += bracket.KelvinsAt(at);
            pascals += bracket.VapourPressurePaAt(at);
        }

        return At(kelvins / brackets.Count, pascals / brackets.Count);
    }

    private static Exposure At(double kelvins, double pascals) => new(kelvins, pascals, kelvins);
}
