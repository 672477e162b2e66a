using CureWatch.Bays;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>Where everyone who only shows looks at the shop, without a lock and without holding the pump up.</summary>
internal sealed class Lookout(Latest latest, TimeProvider clock)
{
    /// <returns>The shop now; null before its settings came.</returns>
    public Look? Now() => Of(latest.Register);

    public Look? Of(Register register) =>
        register.Shop is { } shop ? new Look(register, ShopFold.Take(shop, new Message.ClockReached(clock.GetUtcNow())).Shop) : null;
}
