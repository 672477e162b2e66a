using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>Where everyone who only shows looks at the shop, without a lock and without holding the pump up.</summary>
internal sealed class Lookout(Latest latest, Troubles troubles, TimeProvider clock)
{
    /// <summary>Boards that ask within a second of each other share an answer: ten cars of forty coats are a fifth of a second's work.</summary>
    private static readonly TimeSpan Shared = TimeSpan.FromSeconds(1);

    private volatile Look? _newest;

    /// <returns>The shop now, or less than a second ago where nothing came since; null before its settings came.</returns>
    public Look? Now() => Of(latest.Register);

    public Look? Of(Register register)
    {
        if (register.Shop is not { } shop)
        {
            return null;
        }

        DateTimeOffset now = clock.GetUtcNow();
        ImmutableList<Trouble> standing = troubles.Standing;
        if (_newest is { } newest && ReferenceEquals(newest.Register, register) && ReferenceEquals(newest.Troubles, standing)
            && (now - newest.At).Duration() < Shared)
        {
            return newest;
        }

        Shop present = ShopFold.Take(shop, new Message.ClockReached(now)).Shop;
        var look = new Look(register, present, standing, new BayQueues(present));
        _newest = look;
        return look;
    }
}
