using CureWatch.Service.Api;
using CureWatch.Service.Board;

namespace CureWatch.Service.Phone;

/// <summary>What every page on a phone has around it.</summary>
/// <param name="Shop">The shop's name.</param>
/// <param name="Zone">Its time zone, for the page's own clock.</param>
/// <param name="Now">The instant.</param>
/// <param name="Troubles">What keeps the program itself from its work.</param>
public sealed record Frame(string Shop, string Zone, Moment Now, IReadOnlyList<TroubleView> Troubles)
{
    internal static Frame Of(Look look, ShopClock clock) => new(look.Shop.Plan.Shop, clock.Zone.Id, clock.Of(look.At), TroubleViews.Of(look));
}
