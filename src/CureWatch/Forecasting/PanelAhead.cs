using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;

namespace CureWatch.Forecasting;

/// <summary>What a surface may be exposed to some time ahead.</summary>
/// <param name="Likely">What is likely.</param>
/// <param name="Corners">The corners of the bounds of its temperature and the vapour pressure around it.</param>
internal sealed record PanelAhead(Exposure Likely, ImmutableArray<Exposure> Corners)
{
    /// <summary>The surface in air that is ahead.</summary>
    /// <param name="air">The air.</param>
    /// <param name="now">What the surface is exposed to now.</param>
    /// <param name="otherwise">What it may be exposed to instead.</param>
    /// <param name="left">The share of the panel's present difference from the air that is left by then [1].</param>
    /// <returns>The surface.</returns>
    public static PanelAhead Of(AirAhead air, Exposure now, IReadOnlyList<Exposure> otherwise, double left)
    {
        var corners = ImmutableArray.CreateBuilder<Exposure>(4 * (1 + otherwise.Count));
        foreach (Exposure known in otherwise.Prepend(now))
        {
            double shift = known.AirKelvins - now.AirKelvins, ratio = known.VapourPressurePa / now.VapourPressurePa;
            double panelShift = shift + (left * (known.PanelKelvins - known.AirKelvins));
            foreach ((double kelvins, _) in new[] { air.Low, air.High })
            {
                foreach ((_, double pascals) in new[] { air.Low, air.High })
                {
                    corners.Add(Saturated(kelvins + shift, pascals * ratio, kelvins + panelShift));
                }
            }
        }

        double difference = left * (now.PanelKelvins - now.AirKelvins);
        return new PanelAhead(
            Saturated(air.Likely.Kelvins, air.Likely.VapourPressurePa, air.Likely.Kelvins + difference) with { ColderK = now.ColderK }, corners.ToImmutable());
    }

    /// <summary>The slowest and the fastest that a law runs at any corner.</summary>
    /// <param name="law">The law.</param>
    /// <returns>The rates [reference h/h].</returns>
    public (double Slow, double Fast) Rates(RateLaw law)
    {
        double slow = double.PositiveInfinity, fast = 0;
        foreach (Exposure corner in Corners)
        {
            RateTerms terms = law.Terms(corner.PanelKelvins, corner.VapourPressurePa);
            slow = Math.Min(slow, terms.SlowEarns ? law.Likely(terms) : 0);
            fast = Math.Max(fast, law.Fast(terms));
        }

        return (slow, fast);
    }

    private static Exposure Saturated(double airKelvins, double vapourPressurePa, double panelKelvins) =>
        new(airKelvins, Math.Min(vapourPressurePa, SaturationPressure.OverWaterPa(airKelvins)), panelKelvins);
}
