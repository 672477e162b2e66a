using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Psychrometrics;

namespace CureWatch.Curing;

/// <summary>The climates that may have been in a gap, at each instant of it.</summary>
/// <remarks>
/// They move no faster than <see cref="BayDrift"/> says. Source (choice): of several air probes the mean counts, of several
/// panels the coldest. Where a probe is missing beside the others, it is all shifted by as much as that one may shift the mean; where all
/// are, by as much as they differed when the last of them was heard. A panel without a probe may still be where it was a lag ago.
/// </remarks>
internal sealed class GapClimate
{
    private readonly ClimateSegment _segment;
    private readonly Unseen _unseen;
    private readonly DateTimeOffset _since;
    private readonly bool _isOpen;
    private readonly ImmutableArray<Exposure> _lastKnown;
    private readonly RateLimited[] _air;
    private readonly RateLimited[] _dew;
    private readonly RateLimited[] _panels;

    private GapClimate(ClimateSegment segment, Unseen unseen, bool asIfOpen)
    {
        _segment = segment;
        _unseen = unseen;
        _since = unseen.Since;
        _isOpen = asIfOpen;
        _lastKnown = unseen.IsAirLost && !segment.Alternatives.IsEmpty ? [MeanBefore(unseen), unseen.Before] : [];
        _air = Envelopes(unseen.Air, b => RateLimited.Temperature(b));
        _dew = Envelopes(unseen.Air, b => RateLimited.DewPoint(b));
        _panels = Envelopes(unseen.Panels, b => RateLimited.Temperature(b));
    }

    /// <summary>What may have been; straight between the readings too, which takes the dew point farther than its rate where it rises much.</summary>
    public static GapClimate Of(in ClimateSegment segment, Unseen unseen) => new(segment, unseen, asIfOpen: false);

    /// <summary>What could have been said while the readings after it had not come.</summary>
    public static GapClimate WhileOpen(in ClimateSegment segment, Unseen unseen) => new(segment, unseen, asIfOpen: true);

    /// <summary>
    /// What may be at the segment's end. As if no reading before it were older than the longest that a gap earns anything, and of several air probes from
    /// the one on that was heard last: the bay is no less known when one that was silent for longer is given up.
    /// </summary>
    public static GapClimate AtTheEnd(in ClimateSegment segment, Unseen unseen)
    {
        DateTimeOffset oldest = segment.End - GapEnvelope.LongestEarning, newest = unseen.Air.Max(a => a.From);
        DateTimeOffset heard = newest > oldest ? newest : oldest;
        return Of(segment, unseen with { Air = [.. unseen.Air.Select(a => Since(a, heard))], Panels = [.. unseen.Panels.Select(p => Since(p, oldest))] });

        static Bracket Since(Bracket bracket, DateTimeOffset instant) =>
            bracket is { To: null, ApartKelvins: null } && bracket.From < instant ? bracket with { From = instant } : bracket;
    }

    /// <summary>The instants inside the segment at which an end of an envelope turns.</summary>
    public List<DateTimeOffset> Turns()
    {
        var turns = new List<DateTimeOffset>();
        foreach (RateLimited[] envelopes in (RateLimited[][])[_air, _dew, _panels])
        {
            foreach (RateLimited envelope in envelopes)
            {
                envelope.AddTurns(turns);
            }
        }

        turns.RemoveAll(t => t <= _segment.Start || t >= _segment.End);
        return turns;
    }

    /// <summary>The climates at an instant.</summary>
    public ClimateBox At(DateTimeOffset at)
    {
        (double coldestAir, double warmestAir, double driest, double moistest) = AirAt(at);
        (double coldest, double warmest) = PanelAt(at, coldestAir, warmestAir);
        bool panelIsAir = !_unseen.IsPanelMeasured && _panels.Length == 0 && _unseen.PanelLag == TimeSpan.Zero;
        var box = new ClimateBox(coldest, warmest, driest, moistest, panelIsAir);
        double share = (at - _segment.Start) / (_segment.End - _segment.Start);
        box = _segment.Alternatives.IsEmpty ? box : Shifted(box, share);
        return box.With(_isOpen ? _unseen.Before : _segment.AtStart.Towards(_segment.AtEnd, share));
    }

    /// <summary>The climates at the segment's end between which all others lie; air that is saturated holds no more.</summary>
    public IEnumerable<Exposure> CornersAtTheEnd()
    {
        (double coldestAir, double warmestAir, _, _) = AirAt(_segment.End);
        double[] others = [0, .. _segment.Alternatives.Select(a => a.AtEnd.AirKelvins - _segment.AtEnd.AirKelvins), .. _lastKnown.Select(k => k.AirKelvins - _lastKnown[0].AirKelvins)];
        (coldestAir, warmestAir) = (Math.Min(coldestAir + others.Min(), _segment.AtEnd.AirKelvins), Math.Max(warmestAir + others.Max(), _segment.AtEnd.AirKelvins));
        ClimateBox box = At(_segment.End);
        double saturated = Math.Clamp(DewPoint.OfPressure(box.MoistestPa).Kelvins, coldestAir, warmestAir);
        return new[]
        {
            new Exposure(coldestAir, box.DriestPa, box.ColdestKelvins),
            new Exposure(coldestAir, box.MoistestPa, box.ColdestKelvins),
            new Exposure(saturated, box.MoistestPa, box.ColdestKelvins + saturated - coldestAir),
            new Exposure(warmestAir, box.DriestPa, box.WarmestKelvins),
            new Exposure(warmestAir, box.MoistestPa, box.WarmestKelvins),
        }.Select(e => e with { VapourPressurePa = Math.Min(e.VapourPressurePa, SaturationPressure.OverWaterPa(e.AirKelvins)) }).Distinct();
    }

    private (double Coldest, double Warmest, double DriestPa, double MoistestPa) AirAt(DateTimeOffset at)
    {
        (double coldest, double warmest, double driest, double moistest) = (0, 0, 0, 0);
        for (int i = 0; i < _air.Length; i++)
        {
            (double Low, double High) air = _air[i].At(at), dew = _dew[i].At(at);
            coldest += air.Low / _air.Length;
            warmest += air.High / _air.Length;
            driest += SaturationPressure.OverWaterPa(Math.Min(dew.Low, air.High)) / _air.Length;
            moistest += SaturationPressure.OverWaterPa(Math.Min(dew.High, air.High)) / _air.Length;
        }

        return (coldest, warmest, driest, moistest);
    }

    private RateLimited[] Envelopes(ImmutableArray<Bracket> brackets, Func<Bracket, RateLimited> around)
    {
        var envelopes = new RateLimited[brackets.Length];
        for (int i = 0; i < envelopes.Length; i++)
        {
            envelopes[i] = around(_isOpen ? brackets[i] with { To = null } : brackets[i]);
        }

        return envelopes;
    }

    private (double Coldest, double Warmest) PanelAt(DateTimeOffset at, double coldestAir, double warmestAir)
    {
        (double coldest, double warmest) = _unseen.IsPanelMeasured ? (double.PositiveInfinity, double.PositiveInfinity) : (coldestAir, warmestAir);
        for (int i = 0; i < _panels.Length; i++)
        {
            (double low, double high) = Panel(i, at, coldestAir, warmestAir);
            coldest = Math.Min(coldest, low);
            warmest = Math.Min(warmest, high);
        }

        double lagK = _unseen.IsPanelMeasured ? 0 : LagKAt(at, _since);
        return (coldest - lagK, warmest + lagK);
    }

    /// <summary>A panel that is apart from its air comes to it faster than a bay moves; one that is silent in heard air stays near it.</summary>
    private (double Low, double High) Panel(int index, DateTimeOffset at, double coldestAir, double warmestAir)
    {
        Bracket bracket = _unseen.Panels[index];
        (double low, double high) = _panels[index].At(at);
        (low, high) = (Math.Min(low, coldestAir), Math.Max(high, warmestAir));
        if (bracket.ApartKelvins is not { } apart)
        {
            return (low, high);
        }

        (double below, double above) = PlausiblePanel.After(apart, at - bracket.From);
        double lagK = LagKAt(at, bracket.From);
        return (Math.Max(low, coldestAir - below - lagK), Math.Min(high, warmestAir + above + lagK));
    }

    private double LagKAt(DateTimeOffset at, DateTimeOffset since) =>
        BayDrift.TemperatureKPerHour * Math.Min(_unseen.PanelLag.TotalHours, Math.Abs((at - since).TotalHours));

    private ClimateBox Shifted(ClimateBox box, double share)
    {
        Exposure likely = _lastKnown.IsEmpty ? _segment.AtStart.Towards(_segment.AtEnd, share) : _lastKnown[0];
        bool isByAir = !_unseen.IsPanelMeasured || _unseen.Panels.Any(p => p.ApartKelvins is not null);
        (double drier, double moister) = (0, 0);
        (double colderPanel, double warmerPanel) = (0, 0);
        foreach (Exposure other in _segment.Alternatives.Select(a => a.AtStart.Towards(a.AtEnd, share)).Concat(_lastKnown))
        {
            double kelvins = other.AirKelvins - likely.AirKelvins, pascals = other.VapourPressurePa - likely.VapourPressurePa;
            (drier, moister) = (Math.Min(drier, pascals), Math.Max(moister, pascals));
            double panelK = isByAir ? kelvins : other.PanelKelvins - likely.PanelKelvins;
            (colderPanel, warmerPanel) = (Math.Min(colderPanel, panelK), Math.Max(warmerPanel, panelK));
        }

        return new ClimateBox(
            box.ColdestKelvins + colderPanel,
            box.WarmestKelvins + warmerPanel,
            Math.Max(Psychrometrics.DewPoint.LowestPressurePa, box.DriestPa + drier),
            box.MoistestPa + moister,
            box.PanelIsAir);
    }

    private static Exposure MeanBefore(Unseen unseen) => unseen.Before with
    {
        AirKelvins = unseen.Air.Average(b => b.FromKelvins),
        VapourPressurePa = unseen.Air.Average(b => b.FromVapourPressurePa),
    };
}
