using System.Collections.Immutable;
using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>The probes that tell a surface's climate: the air around it and its panel.</summary>
/// <param name="Mixes">The air around it.</param>
/// <param name="Panels">Sources of the panel, each with a sample; empty where the panel is modelled.</param>
/// <remarks>
/// Several air probes count with the mean of those that were heard in time; the bounds also reckon with what the others would say, and with each
/// by itself where they disagree. Several panel probes count with the coldest, and each of them is waited for, half an hour long: losing the coldest must
/// not make a release earlier. Then the panel is taken from the others, or modelled, and the bounds reckon with the farthest from the air that it
/// may be (<see cref="PlausiblePanel"/>). A panel without a probe follows the colder of the air and its neighbours by its time constant (<see cref="PanelCourse"/>).
/// </remarks>
public sealed record Watch(AirMixes Mixes, ImmutableArray<Source> Panels)
{
    /// <summary>A surface in air that no other shares.</summary>
    /// <param name="air">Sources of the air, each with a sample.</param>
    /// <param name="panels">Sources of the panel, each with a sample; empty where the panel is modelled.</param>
    public Watch(ImmutableArray<Source> air, ImmutableArray<Source> panels)
        : this(new AirMixes(air), panels)
    {
    }

    /// <summary>Sources of the air, each with a sample.</summary>
    public ImmutableArray<Source> Air => Mixes.Sources;

    /// <summary>Sources of other panels nearby: while the surface has no probe, it follows them where they are colder than the air.</summary>
    public ImmutableArray<Source> Neighbours { get; init; } = [];

    /// <summary>What the surface faces in the hall; null where it faces none of it, as inside a car.</summary>
    public Surroundings? Hall { get; init; }

    /// <summary>How fast the surface follows what is around it; zero where it does at once.</summary>
    public TimeSpan TimeConstant { get; init; }

    /// <summary>Temperatures of this surface that were read by hand, in order.</summary>
    public ImmutableArray<PanelSpot> Spots { get; init; } = [];

    /// <summary>The panel sources that are waited for.</summary>
    public ImmutableArray<Source> Awaited => Panels.IsEmpty ? Neighbours : Panels;

    /// <summary>Until when the climate is settled: every probe has been heard at or after, or has been missing too long to wait for.</summary>
    /// <param name="now">The present.</param>
    /// <returns>The instant; null where the air was never measured.</returns>
    public DateTimeOffset? SettledTo(DateTimeOffset now)
    {
        DateTimeOffset? awaited = null;
        foreach (Source source in Air)
        {
            if (!source.IsGapForCure(now - source.Last.At))
            {
                awaited = Earlier(awaited, source.Last.At);
            }
        }

        DateTimeOffset? confirmed = ConfirmedTo(now);
        return awaited is { } air && confirmed is { } known ? Earlier(known, air) : confirmed;
    }

    /// <summary>Until when the climate is known: the newest reading of the air, and of each panel that is waited for.</summary>
    /// <param name="now">The present.</param>
    /// <returns>The instant; null where the air was never measured.</returns>
    public DateTimeOffset? ConfirmedTo(DateTimeOffset now)
    {
        DateTimeOffset? confirmed = null;
        foreach (Source source in Air)
        {
            confirmed = confirmed >= source.Last.At ? confirmed : source.Last.At;
        }

        foreach (Source source in Awaited)
        {
            bool isOut = IsGivenUpAt(source, now) || source.IsLentAt(source.Last.At);
            confirmed = confirmed is null || isOut ? confirmed : Earlier(confirmed, source.Last.At);
        }

        return confirmed;
    }

    /// <summary>Whether the climate can't be followed: no air probe was heard in time.</summary>
    /// <param name="now">The present.</param>
    /// <returns>True while nothing can be settled.</returns>
    public bool IsLostAt(DateTimeOffset now) => Air.All(a => a.IsGapForCure(now - a.Last.At));

    /// <summary>The panel probes that nobody waits for any more; not one whose last reading was of a lamp over another surface.</summary>
    /// <param name="now">The present.</param>
    /// <returns>The sources.</returns>
    public IEnumerable<Source> GivenUp(DateTimeOffset now) =>
        Awaited.Where(p => p.Samples[0].At <= now && IsGivenUpAt(p, now) && !p.IsLentAt(p.Last.At));

    /// <summary>Whether nobody waited for a panel any more at an instant.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="instant">The instant, not before its first reading.</param>
    /// <returns>True where the air was heard too long after its last reading by then.</returns>
    internal bool IsGivenUpAt(Source panel, DateTimeOffset instant) => panel.IsGivenUpAt(instant, AirHeardBy(instant));

    private DateTimeOffset AirHeardBy(DateTimeOffset instant) => Air.Max(a => a.HeardBy(instant)) ?? DateTimeOffset.MinValue;

    /// <summary>The same as if no probe had stood still for longer: the doubt of what it repeats grows no further.</summary>
    /// <param name="instant">The instant since when at most.</param>
    /// <returns>The watch.</returns>
    public Watch StandingSince(DateTimeOffset instant) => this with
    {
        Mixes = new AirMixes([.. Air.Select(s => s.StandingSince(instant))]),
        Panels = [.. Panels.Select(s => s.StandingSince(instant))],
        Neighbours = [.. Neighbours.Select(s => s.StandingSince(instant))],
    };

    /// <summary>Whether a probe measures the panel at an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>False where the panel has to be modelled.</returns>
    public bool MeasuresPanelAt(DateTimeOffset instant)
    {
        DateTimeOffset heard = Panels.IsEmpty ? default : AirHeardBy(instant);
        foreach (Source source in Panels)
        {
            if (source.TellsAt(instant, heard))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether the newest readings say what the panel is: it is measured, and nobody read it by hand.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>False where its course has to be followed up to there.</returns>
    public bool TellsPanelAt(DateTimeOffset instant) => Spots.IsEmpty && MeasuresPanelAt(instant);

    /// <summary>When the air was first measured; null where it never was.</summary>
    public DateTimeOffset? FirstAt => Air.IsEmpty ? null : Air.Min(a => a.Samples[0].At);

    /// <summary>The instants inside a stretch at which a probe is followed, in order, each once.</summary>
    /// <param name="after">The stretch's start, left out.</param>
    /// <param name="to">The stretch's end, taken in where something was.</param>
    /// <returns>The instants.</returns>
    public List<DateTimeOffset> Knots(DateTimeOffset after, DateTimeOffset to)
    {
        var knots = new List<DateTimeOffset>();
        foreach (Source source in Air)
        {
            source.Follow(after, to, knots);
        }

        foreach (Source source in Awaited)
        {
            source.Follow(after, to, knots);
            foreach (Spell lamp in source.Lent)
            {
                AddIfInside(lamp.From);
                AddIfInside(lamp.To ?? DateTimeOffset.MaxValue);
            }
        }

        foreach (PanelSpot spot in Spots)
        {
            AddIfInside(spot.At);
        }

        knots.Sort();
        int kept = 0;
        for (int i = 0; i < knots.Count; i++)
        {
            if (i == 0 || knots[i] != knots[kept - 1])
            {
                knots[kept++] = knots[i];
            }
        }

        knots.RemoveRange(kept, knots.Count - kept);
        return knots;

        void AddIfInside(DateTimeOffset at)
        {
            if (at > after && at <= to)
            {
                knots.Add(at);
            }
        }
    }

    /// <summary>The climate over a stretch with no measurement inside.</summary>
    /// <param name="from">Its start.</param>
    /// <param name="to">Its end.</param>
    /// <param name="now">The present, to which an open bracket reaches.</param>
    /// <returns>The segment; null where the air was not yet measured. A panel that is modelled is what the surface follows.</returns>
    public ClimateSegment? Over(DateTimeOffset from, DateTimeOffset to, DateTimeOffset now)
    {
        if (Mixes.Over(from, to, now) is not { } air)
        {
            return null;
        }

        var mix = PanelMix.Over(this, air, from, to, now);
        (ImmutableArray<Bracket> panels, ImmutableArray<Bracket> givenUp) = (mix.Awaited, mix.GivenUp);
        bool isAirLost = air.Closest.IsGapForCure(air.Around.Length(now)), isMeasured = MeasuresPanelAt(from);
        double beforeKelvins = isMeasured ? double.PositiveInfinity : air.Before.AirKelvins;
        beforeKelvins = panels.IsEmpty ? beforeKelvins : Math.Min(beforeKelvins, panels.Min(p => p.FromKelvins));
        bool isGapForEvaporation = mix.IsGapForEvaporation || air.Closest.IsGapForEvaporation(air.Around.Length(now)) || !givenUp.IsEmpty;
        bool isGapForCure = mix.IsGapForCure || isAirLost || !givenUp.IsEmpty;
        Exposure before = air.Before with { PanelKelvins = beforeKelvins };
        Unseen? unseen = isGapForEvaporation
            ? new Unseen(air.Known, panels.AddRange(givenUp), before, isGapForEvaporation, isGapForCure, isAirLost, isAirLost && mix.AreSilent)
            {
                IsPanelMeasured = isMeasured || (!givenUp.IsEmpty && !Panels.IsEmpty),
                IsPanelAwaited = panels.Any(p => p.To is null),
                PanelLag = TimeConstant,
            }
            : null;
        (double startKelvins, double endKelvins) = mix.Coldest.Likely;
        ImmutableArray<Alternative> otherwise = panels.IsEmpty ? air.Otherwise : Otherwise(air, from, to, startKelvins, endKelvins).AddRange(mix.Coldest.Past(air));
        double colderK = panels.IsEmpty && givenUp.IsEmpty && Hall is { } hall ? hall.ColderK(air.Start.AirKelvins, from) : 0;
        return new ClimateSegment(
            from,
            to,
            air.Start with { PanelKelvins = startKelvins, ColderK = colderK },
            air.End with { PanelKelvins = endKelvins, ColderK = colderK },
            unseen,
            givenUp.IsEmpty ? otherwise : [.. otherwise, .. Unheard(givenUp, new Alternative(air.Start, air.End), from, to)]);
    }

    private static IEnumerable<Alternative> Unheard(ImmutableArray<Bracket> panels, Alternative air, DateTimeOffset from, DateTimeOffset to) =>
        panels.SelectMany(p => PlausiblePanel.Around(p, air, from, to));

    /// <summary>What the air may be instead, by the same panel; where panels disagree beyond their limits, also by the hottest of them.</summary>
    private ImmutableArray<Alternative> Otherwise(AirMix air, DateTimeOffset from, DateTimeOffset to, double startKelvins, double endKelvins)
    {
        ImmutableArray<Alternative> otherwise = [.. air.Otherwise.Select(a => a.WithPanel(startKelvins, endKelvins))];
        if (Panels.Length < 2)
        {
            return otherwise;
        }

        DateTimeOffset middle = from + ((to - from) / 2), airHeard = AirHeardBy(from);
        ImmutableArray<(Source Source, Bracket Around)> heard =
            [.. Panels.Where(p => p.TellsAt(from, airHeard)).Select(p => (p, p.Around(from, to))).Where(p => p.Item2 is not null).Select(p => (p.p, p.Item2!))];
        if (Accord.Of([.. heard.Select(h => new Testimony(h.Around.KelvinsAt(middle), 0, h.Source.LimitK, 0))]).IsUnanimous)
        {
            return otherwise;
        }

        (double start, double end) = (heard.Max(h => h.Around.KelvinsAt(from)), heard.Max(h => h.Around.KelvinsAt(to)));
        return [.. otherwise, .. air.Otherwise.Add(new Alternative(air.Start, air.End)).Select(a => a.WithPanel(start, end))];
    }

    private static DateTimeOffset Earlier(DateTimeOffset? a, DateTimeOffset b) => a is { } known && known < b ? known : b;
}
