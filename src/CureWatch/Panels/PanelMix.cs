using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>The panels over a stretch with no measurement inside: what is waited for, and what nobody waits for any more.</summary>
/// <param name="Awaited">The readings around it of the panels that were waited for.</param>
/// <param name="GivenUp">The last that was heard of the others.</param>
/// <param name="Coldest">What counts of the first.</param>
/// <param name="IsGapForEvaporation">Whether too long was waited for one, for the clock that runs in minutes.</param>
/// <param name="IsGapForCure">The same for the clock that runs in hours.</param>
/// <param name="AreSilent">Whether none was heard in time for that clock.</param>
/// <remarks>
/// Giving a panel up tells nothing of it. So beside air that is heard it is no farther from that air while it is waited for than after, and the half hour
/// for which it is waited for earns the slow bound nothing until it is heard again (<see cref="Unseen.IsPanelAwaited"/>).
/// </remarks>
internal readonly record struct PanelMix(
    ImmutableArray<Bracket> Awaited,
    ImmutableArray<Bracket> GivenUp,
    PanelReach Coldest,
    bool IsGapForEvaporation,
    bool IsGapForCure,
    bool AreSilent)
{
    /// <summary>Mixes the panels over a stretch.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="air">The air over it.</param>
    /// <param name="from">Its start.</param>
    /// <param name="to">Its end.</param>
    /// <param name="now">The present, to which an open bracket reaches.</param>
    /// <returns>The panels; the air itself where none counts.</returns>
    public static PanelMix Over(Watch watch, AirMix air, DateTimeOffset from, DateTimeOffset to, DateTimeOffset now)
    {
        var mix = new PanelMix([], [], PanelReach.Exactly((air.Start.AirKelvins, air.End.AirKelvins)), false, false, AreSilent: true);
        bool isMeasured = watch.MeasuresPanelAt(from), isAirHeard = !air.Closest.IsGapForCure(air.Around.Length(now));
        foreach (Source panel in watch.Awaited)
        {
            if (panel.IsLentAt(from) || panel.Around(from, to) is not { } around || panel.IsLentAt(around.From))
            {
                continue;
            }

            if (watch.IsGivenUpAt(panel, from))
            {
                mix = mix with { GivenUp = mix.GivenUp.Add(around with { To = null, ApartKelvins = Apart(around) }) };
                continue;
            }

            // What followed when it was given up stands, whatever it says when it is heard again.
            bool isGap = panel.IsGapForCure(around.Length(now)), stood = isGap && around.To is { } back && watch.IsGivenUpAt(panel, back.AddTicks(-1));
            PanelReach reach = PanelReach.Of(panel, watch.Awaited, stood ? around with { To = null } : around, from, to);
            bool isNear = isAirHeard && around.To is null && panel.IsGapForEvaporation(around.Length(now));
            mix = new PanelMix(
                mix.Awaited.Add(isNear ? around with { ApartKelvins = Apart(around) } : around),
                mix.GivenUp,
                isMeasured && mix.Awaited.IsEmpty ? reach : mix.Coldest.OrColder(reach),
                mix.IsGapForEvaporation || panel.IsGapForEvaporation(around.Length(now)),
                mix.IsGapForCure || isGap,
                mix.AreSilent && isGap);
        }

        return mix;

        double Apart(Bracket last) => watch.Mixes.Over(last.From, last.From, now) is { } then ? last.FromKelvins - then.Start.AirKelvins : 0;
    }
}
