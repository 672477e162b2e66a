using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>The air over a stretch, as several probes tell it.</summary>
/// <param name="Closest">The probe with the shortest stretch between its readings.</param>
/// <param name="Around">Those readings.</param>
/// <param name="Known">The readings that count: those of the probes heard in time; where none was, of those that fell silent last.</param>
/// <param name="Before">The air that the readings before the stretch told.</param>
/// <param name="Start">Mean of the probes heard in time, at the start; where none was, what the last of them tells.</param>
/// <param name="End">The same at the end.</param>
/// <param name="WithMissing">The mean with the probes that are missing, in some guesses; empty where none is.</param>
internal sealed record AirMix(
    Source Closest,
    Bracket Around,
    ImmutableArray<Bracket> Known,
    Exposure Before,
    Exposure Start,
    Exposure End,
    ImmutableArray<Alternative> WithMissing)
{
    /// <summary>What a shifted vapour pressure never falls below [Pa]: drier than any bay. Source (choice).</summary>
    private const double LeastVapourPressurePa = 1;

    /// <summary>Mixes the air over a stretch with no measurement inside.</summary>
    /// <param name="air">The air probes.</param>
    /// <param name="from">The stretch's start.</param>
    /// <param name="to">Its end.</param>
    /// <param name="now">The present, to which an open bracket reaches.</param>
    /// <returns>The air; null where it was not yet measured.</returns>
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
            return OfTheSilent(c.Source, c.Around, air, from, to);
        }

        (Exposure start, Exposure end) = (Mean(heard, from), Mean(heard, to));
        Exposure before = At(heard.Average(b => b.FromKelvins), heard.Average(b => b.FromVapourPressurePa));
        ImmutableArray<Alternative> withMissing = missing is null ? [] : Including(missing, air, heard.Count, start, end, from);
        return new AirMix(c.Source, c.Around, [.. heard], before, start, end, withMissing);
    }

    /// <summary>
    /// No probe was heard in time: the one that fell silent last goes on to count, with the others as missing as they were by then.
    /// </summary>
    private static AirMix OfTheSilent(Source closest, Bracket around, ImmutableArray<Source> air, DateTimeOffset from, DateTimeOffset to)
    {
        List<(Source Source, Bracket Around)> known = [.. air.Select(a => (a, a.Around(from, to)!)).Where(a => a.Item2 is not null)];
        (Source last, Bracket newest) = known.MaxBy(k => k.Around.From);
        Exposure before = Mean([newest], newest.From);
        List<Source> others = [.. known.Select(k => k.Source).Where(s => s != last)];
        return new AirMix(
            closest,
            around,
            [.. known.Where(k => !k.Source.IsGapForCure(newest.From - k.Around.From)).Select(k => k.Around)],
            before,
            Mean([newest], from),
            Mean([newest], to),
            others.Count == 0 ? [] : Including(others, air, 1, before, before, newest.From));
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
