using System.Collections.Immutable;
using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Bays;

/// <summary>What is expected of a surface: one that is modelled stays what it is for minutes, and is what it follows for hours; the bounds reckon with either.</summary>
internal static class PanelOutlook
{
    /// <summary>The outlook of a surface.</summary>
    /// <param name="newest">The newest that is known of its climate.</param>
    /// <param name="followed">What it follows, in that air; null where it is measured.</param>
    /// <param name="law">The law that is asked for.</param>
    /// <param name="now">The present.</param>
    /// <returns>The outlook.</returns>
    public static Outlook Of(ClimateSegment newest, Exposure? followed, RateLaw law, DateTimeOffset now)
    {
        Exposure held = newest.AtEnd;
        ImmutableArray<Exposure> otherwise = [.. newest.Alternatives.Where(a => !a.IsPast && !a.IsUnheard).Select(a => a.AtEnd)];
        bool isContradicted = newest.Alternatives.Any(a => a.IsContradicted);
        if (followed is not { } target)
        {
            return new Outlook(now, held, otherwise) { IsContradicted = isContradicted };
        }

        double towardsK = target.PanelKelvins - target.AirKelvins;
        Exposure settled = Settled(held);
        otherwise = otherwise.AddRange(otherwise.Select(Settled));
        return law.Mechanism == Mechanism.Cure
            ? new Outlook(now, settled, otherwise.Add(held)) { IsContradicted = isContradicted }
            : new Outlook(now, held, otherwise.Add(settled)) { IsContradicted = isContradicted };

        Exposure Settled(Exposure exposure) => exposure with { PanelKelvins = exposure.AirKelvins + towardsK };
    }
}
