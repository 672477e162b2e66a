using CureWatch.Bays;
using CureWatch.Products;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Puts what was learnt into words.</summary>
internal static class LearningViews
{
    public static LearningView Of(Look look, IReadOnlyList<Sentence> faults)
    {
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        Catalogue catalogue = look.Register.Settings.Catalogue;
        return new LearningView(
            look.Shop.Plan.Shop,
            TroubleViews.Of(look),
            [
                .. LearningReport.Of(look.Shop).GroupBy(r => (r.Product, r.Revision)).Select(p => new LearntProductView(
                    catalogue.Find(p.Key.Product, p.Key.Revision)?.Name ?? p.Key.Product, p.Key.Revision, [.. p.Select(r => Line(r, clock))])),
            ],
            [.. catalogue.Sheets.Select(s => s.Product).Distinct().Select(p => (p, catalogue.Newest(p)!.Name))],
            [.. look.Shop.Plan.Bays.Select(b => b.Bay)],
            faults);
    }

    private static LearntLineView Line(LearningReport report, ShopClock clock)
    {
        Sentence text = $"{LearningWords.Of(report)}";
        Sentence?[] ignored =
        [
            report.FarOff > 0 ? (Sentence)$"{report.FarOff} too far off to be meant" : null,
            report.Unwatched > 0 ? (Sentence)$"{report.Unwatched} in a climate nobody measured" : null,
        ];
        return new LearntLineView(
            report.Bay,
            $"{text.Capital()}.",
            report.Effect is { } effect
                ? (Sentence)$"{100 * effect.Low:0} to {100 * effect.High:0} % of the sheet's time, with 90 % certainty."
                : null,
            ignored.Any(i => i is not null) ? (Sentence)$"Not counted: {Sentence.Join(", ", ignored.OfType<Sentence>())}." : null,
            clock.Of(report.Since),
            report.Disagrees);
    }
}
