using CureWatch.Service.Api;

namespace CureWatch.Service.Board;

/// <summary>Puts what troubles the program itself into words.</summary>
internal static class TroubleViews
{
    public static IReadOnlyList<TroubleView> Of(Look look)
    {
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        return
        [
            .. look.Troubles.OrderBy(t => t.Rule.Priority).Select(t => new TroubleView(
                Tones.Of(t.Rule), BoardWords.Of(t.Kind), clock.Of(t.Since), t.Cause, t.Rule.Consequence, t.Rule.Action)),
        ];
    }
}
