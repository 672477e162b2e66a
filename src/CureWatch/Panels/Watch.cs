using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>The probes that tell a surface's climate: the air around it and its panel.</summary>
/// <param name="Air">Sources of the air, each with a sample.</param>
/// <param name="Panels">Sources of the panel, each with a sample; empty where the panel is taken as the air.</param>
/// <remarks>
/// Several air probes count with the mean of those that were heard in time; the bounds also reckon with what the others would say. Several
/// panel probes count with the coldest, and each of them is waited for: losing the coldest must not make a release earlier.
/// </remarks>
public sealed record Watch(ImmutableArray<Source> Air, ImmutableArray<Source> Panels)
{
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

        return awaited is { } air && ConfirmedTo is { } confirmed ? Earlier(confirmed, air) : ConfirmedTo;
    }

    /// <summary>Until when the climate is known: the newest reading of the air, and of each panel. Null where the air was never measured.</summary>
    public DateTimeOffset? ConfirmedTo
    {
        get
        {
            DateTimeOffset? confirmed = null;
            foreach (Source source in Air)
            {
                confirmed = confirmed >= source.Last.At ? confirmed : source.Last.At;
            }

            foreach (Source source in Panels)
            {
                confirmed = confirmed is null ? null : Earlier(confirmed, source.Last.At);
            }

            return confirmed;
        }
    }

    /// <summary>Whether the climate can't be followed: no air probe was heard in time, or a panel probe was not.</summary>
    /// <param name="now">The present.</param>
    /// <returns>True while nothing can be settled.</returns>
    public bool IsLostAt(DateTimeOffset now) =>
        Air.All(a => a.IsGapForCure(now - a.Last.At)) || Panels.Any(p => p.IsGapForCure(now - p.Last.At));

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

        foreach (Source source in Panels)
        {
            source.Follow(after, to, knots);
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
    }

    /// <summary>The climate over a stretch with no measurement inside.</summary>
    /// <param name="from">Its start.</param>
    /// <param name="to">Its end.</param>
    /// <param name="now">The present, to which an open bracket reaches.</param>
    /// <returns>The segment; null where the air was not yet measured.</returns>
    public ClimateSegment? Over(DateTimeOffset from, DateTimeOffset to, DateTimeOffset now)
    {
        if (AirMix.Over(Air, from, to, now) is not { } air)
        {
            return null;
        }

        double startKelvins = air.Start.AirKelvins;
        double endKelvins = air.End.AirKelvins;
        Bracket? widest = null;
        bool isGapForEvaporation = air.Closest.IsGapForEvaporation(air.Around.Length(now));
        bool isGapForCure = air.Closest.IsGapForCure(air.Around.Length(now));
        foreach (Source panel in Panels)
        {
            if (panel.Around(from, to) is not { } around)
            {
                continue;
            }

            startKelvins = widest is null ? around.KelvinsAt(from) : Math.Min(startKelvins, around.KelvinsAt(from));
            endKelvins = widest is null ? around.KelvinsAt(to) : Math.Min(endKelvins, around.KelvinsAt(to));
            widest = widest is null || around.Length(now) > widest.Length(now) ? around : widest;
            isGapForEvaporation |= panel.IsGapForEvaporation(around.Length(now));
            isGapForCure |= panel.IsGapForCure(around.Length(now));
        }

        return new ClimateSegment(
            from,
            to,
            air.Start with { PanelKelvins = startKelvins },
            air.End with { PanelKelvins = endKelvins },
            isGapForEvaporation ? new Unseen(air.Around, widest, isGapForEvaporation, isGapForCure) : null,
            widest is null ? air.WithMissing : [.. air.WithMissing.Select(a => a.WithPanel(startKelvins, endKelvins))]);
    }

    private static DateTimeOffset Earlier(DateTimeOffset? a, DateTimeOffset b) => a is { } known && known < b ? known : b;
}
