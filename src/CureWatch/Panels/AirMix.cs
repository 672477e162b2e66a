using System.Collections.Immutable;
using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>The air over a stretch, as several probes tell it.</summary>
/// <param name="Closest">The probe with the shortest stretch between its readings.</param>
/// <param name="Around">Those readings.</param>
/// <param name="Known">The readings that count: those of the probes heard in time; where none was, of those that fell silent last.</param>
/// <param name="Before">The air that the readings before the stretch told.</param>
/// <param name="Start">Mean of the probes heard in time, at the start, without one at odds with most; where none was, what the last of them tells.</param>
/// <param name="End">The same at the end.</param>
/// <param name="Otherwise">What it may be instead, where a probe is missing, held, or at odds with another; empty where none is.</param>
internal sealed record AirMix(
    Source Closest,
    Bracket Around,
    ImmutableArray<Bracket> Known,
    Exposure Before,
    Exposure Start,
    Exposure End,
    ImmutableArray<Alternative> Otherwise)
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
        if (air is [var only] && only.Around(from, to) is { } told && TellsAlone(only, told, from, to, now))
        {
            return new AirMix(only, told, [told], told.AirAt(told.From), told.AirAt(from), told.AirAt(to), []);
        }

        (Source Source, Bracket Around)? closest = null;
        var heard = new List<(Source Source, Bracket Around)>(air.Length);
        List<Source>? missing = null;
        var still = new List<(Source Source, Bracket Around)>();
        foreach (Source source in air)
        {
            if (source.Around(from, to) is not { } around)
            {
                continue;
            }

            closest = closest is null || around.Length(now) < closest.Value.Around.Length(now) ? (source, around) : closest;
            if (!source.IsGapForCure(around.Length(now)))
            {
                (source.StoodStillSince(from, to) is null ? heard : still).Add((source, around));
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

        if (heard.Count == 0 && still.Count == 0)
        {
            return OfTheSilent(c.Source, c.Around, air, from, to);
        }

        bool areAllStill = heard.Count == 0;
        if (areAllStill)
        {
            heard = still;
        }
        else if (still.Count > 0)
        {
            Source[] silenced = Silenced(still, from, to);
            (missing ??= []).AddRange(silenced);
            air = [.. Without(air, still), .. silenced];
        }

        (List<Bracket> trusted, ImmutableArray<Alternative> otherwise) = areAllStill ? ([.. still.Select(s => s.Around)], MayBe(still, from, to))
            : heard.Count == 1 ? ([heard[0].Around], [])
            : Weigh(heard, from, to);
        (Exposure start, Exposure end) = (Mean(trusted, from), Mean(trusted, to));
        Exposure before = MeanBefore(trusted);
        double heldWithinK = HeldWithinK(heard, from);
        if (heldWithinK > 0)
        {
            otherwise = otherwise.AddRange(
                new Alternative(Shift(start, heldWithinK, 0), Shift(end, heldWithinK, 0)),
                new Alternative(Shift(start, -heldWithinK, 0), Shift(end, -heldWithinK, 0)));
        }

        if (missing is not null)
        {
            otherwise = otherwise.AddRange(Including(missing, air, heard.Count, start, end, from));
        }

        return new AirMix(c.Source, c.Around, [.. trusted], before, start, end, otherwise);
    }

    /// <summary>Whether there is nothing to weigh: the only probe was heard in time, is believed, and measured what it says.</summary>
    private static bool TellsAlone(Source only, Bracket told, DateTimeOffset from, DateTimeOffset to, DateTimeOffset now) =>
        !only.IsGapForCure(told.Length(now)) && only.StoodStillSince(from, to) is null && only.HeldWithinK(from) <= 0;

    /// <summary>
    /// No probe was heard in time: the one that fell silent last goes on to count, with the others as missing as they were by then.
    /// </summary>
    private static AirMix OfTheSilent(Source closest, Bracket around, ImmutableArray<Source> air, DateTimeOffset from, DateTimeOffset to)
    {
        List<(Source Source, Bracket Around)> known = [.. air.Select(a => (a, a.Around(from, to)!)).Where(a => a.Item2 is not null)];
        (Source last, Bracket newest) = known.MaxBy(k => k.Around.From);
        Exposure before = newest.AirAt(newest.From);
        List<Source> others = [.. known.Select(k => k.Source).Where(s => s != last)];
        return new AirMix(
            closest,
            around,
            [.. known.Where(k => !k.Source.IsGapForCure(newest.From - k.Around.From)).Select(k => k.Around)],
            before,
            newest.AirAt(from),
            newest.AirAt(to),
            [
                .. others.Count == 0 ? [] : Including(others, air, 1, before, before, newest.From),
                .. StillAir.Over(last, newest.From, newest.From),
            ]);
    }

    /// <summary>
    /// Probes that disagree beyond their limits: a majority of three or more is followed, else all; what each says by itself may be true of the bounds.
    /// </summary>
    private static (List<Bracket> Trusted, ImmutableArray<Alternative> Otherwise) Weigh(
        List<(Source Source, Bracket Around)> heard, DateTimeOffset from, DateTimeOffset to)
    {
        List<Bracket> all = [.. heard.Select(h => h.Around)];
        DateTimeOffset middle = from + ((to - from) / 2);
        Accord accord = Accord.Of([.. heard.Select(h => h.Source.Testify(h.Around, middle))]);
        return accord.IsUnanimous
            ? (all, [])
            : ([.. all.Where((_, i) => !accord.IsOdd(i))], [.. all.Select(a => Alone(a, from, to))]);
    }

    /// <summary>
    /// Probes that are missing: those that agreed with the ones still heard are near them all the time; else nobody knows.
    /// </summary>
    private static IEnumerable<Alternative> Including(
        List<Source> missing, ImmutableArray<Source> air, int heard, Exposure start, Exposure end, DateTimeOffset from)
    {
        ImmutableArray<Source> others = [.. air.Where(a => !missing.Contains(a))];
        List<TwinReach> reaches = [.. missing.Select(m => TwinReach.Of(m, m.Around(from, from)!.From, others)).OfType<TwinReach>()];
        return reaches.Count == missing.Count
            ? Near(reaches, heard + missing.Count, start, end)
            : Anywhere(missing, others, heard, start, end, from);
    }

    private static IEnumerable<Alternative> Near(List<TwinReach> reaches, double all, Exposure start, Exposure end) =>
        from kelvins in new[] { reaches.Sum(r => r.LeastK) / all, reaches.Sum(r => r.MostK) / all }
        from pascals in new[] { reaches.Sum(r => r.LeastPa) / all, reaches.Sum(r => r.MostPa) / all }
        select new Alternative(Shift(start, kelvins, pascals), Shift(end, kelvins, pascals));

    /// <summary>
    /// A probe that is missing is taken to say what it said last, and to differ from the others by as much as it did then: either may be true. One that
    /// disagreed with them then may have been the one that was right.
    /// </summary>
    private static IEnumerable<Alternative> Anywhere(
        List<Source> missing, ImmutableArray<Source> twins, int heard, Exposure start, Exposure end, DateTimeOffset from)
    {
        double keptKelvins = 0, keptPa = 0, heldKelvins = 0, heldPa = 0;
        foreach (Source lost in missing)
        {
            Bracket last = lost.Around(from, from)!;
            List<(Source Source, Bracket Around)> then =
                [.. twins.Select(t => (t, t.Around(last.From, last.From))).Where(t => t.Item2 is not null).Select(t => (t.t, t.Item2!))];
            Exposure others = then.Count > 0 ? Mean([.. then.Select(t => t.Around)], last.From) : start;
            (double kelvins, double pascals) = (last.FromKelvins - others.AirKelvins, last.FromVapourPressurePa - others.VapourPressurePa);
            keptKelvins += kelvins;
            keptPa += pascals;
            heldKelvins += last.FromKelvins;
            heldPa += last.FromVapourPressurePa;
            Testimony said = lost.Testify(last, last.From);
            if (then.Any(t => said.DistanceTo(t.Source.Testify(t.Around, last.From)) > 1))
            {
                Exposure held = At(last.FromKelvins, last.FromVapourPressurePa);
                yield return new Alternative(held, held) { IsContradicted = true };
                yield return new Alternative(Shift(start, kelvins, pascals), Shift(end, kelvins, pascals)) { IsContradicted = true };
            }
        }

        double all = heard + missing.Count;
        yield return new Alternative(Shift(start, keptKelvins / all, keptPa / all), Shift(end, keptKelvins / all, keptPa / all));
        yield return new Alternative(Held(start), Held(end));

        Exposure Held(Exposure mean) => At(
            ((mean.AirKelvins * heard) + heldKelvins) / all, ((mean.VapourPressurePa * heard) + heldPa) / all);
    }

    private static Alternative Alone(Bracket bracket, DateTimeOffset from, DateTimeOffset to) => new(bracket.AirAt(from), bracket.AirAt(to)) { IsContradicted = true };

    private static Exposure Shift(Exposure exposure, double kelvins, double pascals) => At(
        exposure.AirKelvins + kelvins, Math.Max(LeastVapourPressurePa, exposure.VapourPressurePa + pascals));

    private static Source[] Silenced(List<(Source Source, Bracket Around)> still, DateTimeOffset from, DateTimeOffset to) =>
        [.. still.Select(s => s.Source.UpTo(s.Source.StoodStillSince(from, to)!.Value))];

    private static IEnumerable<Source> Without(ImmutableArray<Source> air, List<(Source Source, Bracket Around)> still) =>
        air.Where(a => still.TrueForAll(s => s.Source != a));

    private static ImmutableArray<Alternative> MayBe(List<(Source Source, Bracket Around)> still, DateTimeOffset from, DateTimeOffset to) =>
        [.. still.SelectMany(s => StillAir.Over(s.Source, from, to))];

    private static double HeldWithinK(List<(Source Source, Bracket Around)> heard, DateTimeOffset from)
    {
        double sum = 0;
        foreach ((Source source, _) in heard)
        {
            sum += source.HeldWithinK(from);
        }

        return sum / heard.Count;
    }

    private static Exposure MeanBefore(List<Bracket> brackets)
    {
        double kelvins = 0, pascals = 0;
        foreach (Bracket bracket in brackets)
        {
            kelvins += bracket.FromKelvins;
            pascals += bracket.FromVapourPressurePa;
        }

        return At(kelvins / brackets.Count, pascals / brackets.Count);
    }

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
