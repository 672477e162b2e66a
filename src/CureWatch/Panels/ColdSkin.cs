using CureWatch.Psychrometrics;

namespace CureWatch.Panels;

/// <summary>A surface that came in cold, and when it is dry enough to be coated: warmer than the air's condensation temperature by a spread.</summary>
/// <param name="Node">The surface.</param>
/// <param name="At">When its temperature was known.</param>
/// <param name="Kelvins">What it was then [K], and the body behind it.</param>
public sealed record ColdSkin(TwoNode Node, DateTimeOffset At, double Kelvins)
{
    /// <summary>What takes longer than this is never. Source (choice): no car stays in the bay to warm up for two days.</summary>
    private static readonly TimeSpan Farthest = TimeSpan.FromHours(48);

    private static readonly TimeSpan Look = TimeSpan.FromMinutes(1);

    /// <summary>How much slower or faster than its material a surface may be [1]. Source (choice): from a fan on both sides to a skin on a cold body.</summary>
    private const double Fastest = 0.25, Slowest = 8;

    /// <summary>The same surface as a reading by hand shows it: its clock runs so that it passes through the reading.</summary>
    /// <param name="at">When it was read.</param>
    /// <param name="kelvins">What was read [K].</param>
    /// <param name="air">The air since the surface's temperature was known, in order.</param>
    /// <returns>
    /// The surface. Where no clock leads there, the start was wrong: it begins anew at the reading, with its slowest clock where it warmed too little.
    /// </returns>
    /// <remarks>Equation: with one lump in steady air the same as τ = Δt/ln((T_air − T₁)/(T_air − T₂)).</remarks>
    public ColdSkin Through(DateTimeOffset at, double kelvins, IReadOnlyList<ClimateSegment> air)
    {
        double Reached(double factor) => (this with { Node = Node.Slower(factor) }).Follow(air, at).Last().Skin;
        double fastest = Reached(Fastest), slowest = Reached(Slowest);
        if (!(kelvins >= Math.Min(fastest, slowest) && kelvins <= Math.Max(fastest, slowest)) || at <= At)
        {
            bool isStuck = at > At && kelvins >= Math.Min(Kelvins, slowest) && kelvins <= Math.Max(Kelvins, slowest);
            return new ColdSkin(isStuck ? Node.Slower(Slowest) : Node, at, kelvins);
        }

        double low = Fastest, high = Slowest;
        for (int halving = 0; halving < 40; halving++)
        {
            double middle = (low + high) / 2;
            bool isTooSlow = fastest > slowest ? Reached(middle) < kelvins : Reached(middle) > kelvins;
            (low, high) = isTooSlow ? (low, middle) : (middle, high);
        }

        return this with { Node = Node.Slower((low + high) / 2) };
    }

    /// <summary>When it is dry enough.</summary>
    /// <param name="air">The air since its temperature was known, in order, up to now; the last value is expected to last.</param>
    /// <param name="spreadK">The spread it needs [K].</param>
    /// <param name="movedAt">When it came into the air it is in; what was dry enough in another before may not be in this. Null where it stood in one.</param>
    /// <returns>When, whether water condensed on it before, and its temperature now [K]; never where the instant is null.</returns>
    public (DateTimeOffset? At, bool WasWet, double NowKelvins) DryAt(
        IReadOnlyList<ClimateSegment> air, double spreadK, DateTimeOffset? movedAt = null)
    {
        ClimateSegment last = air[^1];
        double nowKelvins = Follow(air, last.End).Last().Skin;
        var ahead = ClimateSegment.Plain(last.End, last.End + Farthest, last.AtEnd, last.AtEnd);
        bool wasWet = false;
        (DateTimeOffset At, double LackingK)? before = null;
        DateTimeOffset? dry = null;
        bool isEverDry = last.AtEnd.AirKelvins > CondensationTemperature.OfPressure(last.AtEnd.VapourPressurePa).Kelvins + spreadK;
        foreach ((DateTimeOffset at, double skin, double condensation) in Follow(isEverDry ? [.. air, ahead] : air, ahead.End))
        {
            double lackingK = condensation + spreadK - skin;
            if (lackingK > 0)
            {
                (dry, before) = (null, (at, lackingK));
                wasWet |= skin <= condensation;
                continue;
            }

            dry ??= before is { } b ? b.At + ((at - b.At) * (b.LackingK / (b.LackingK - lackingK))) : at;
            if (!(at <= movedAt))
            {
                break;
            }
        }

        return (dry, wasWet, nowKelvins);
    }

    /// <summary>Its temperature every minute or so, and what would wet it.</summary>
    private IEnumerable<(DateTimeOffset At, double Skin, double CondensationKelvins)> Follow(IReadOnlyList<ClimateSegment> air, DateTimeOffset to)
    {
        (double Skin, double Body) state = (Kelvins, Kelvins);
        yield return (At, Kelvins, CondensationTemperature.OfPressure(air[0].AtStart.VapourPressurePa).Kelvins);
        foreach (ClimateSegment segment in air)
        {
            DateTimeOffset from = segment.Start > At ? segment.Start : At, until = segment.End < to ? segment.End : to;
            if (from >= until)
            {
                continue;
            }

            int looks = (int)Math.Ceiling(Math.Min((until - from) / Look, Farthest / Look)); // a silence of days is one stretch
            for (int i = 0; i < looks; i++)
            {
                DateTimeOffset begin = from + ((until - from) * i / looks), end = from + ((until - from) * (i + 1) / looks);
                Exposure first = segment.ExposureAt(begin), second = segment.ExposureAt(end);
                state = Node.After(state, first.AirKelvins, second.AirKelvins, end - begin);
                yield return (end, state.Skin, CondensationTemperature.OfPressure(second.VapourPressurePa).Kelvins);
            }
        }
    }
}
